// The drawing language, held against what the browser makes of thousands of figures: every measure
// here comes from the page and from quiz.json, none from the program that placed the labels.

import assert from 'node:assert/strict';
import {cpSync, readFileSync, readdirSync, rmSync, unlinkSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {openPage, startBrowser} from './support/browser.js';
import {editionOptions, everyEdition, footroom, project, temporaryFolder} from './support/footroom.js';

const enough = 5000;  // draws, each with a figure for the sheet and one for the key

// Widths of lines in mm, and the greys of fills. Three hatches stand for earth, timber, danger.
const lineWidths = [0.13, 0.16, 0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.7, 1];
const hatchWidths = [0.13, 0.16, 0.18];
const hatches = ['danger', 'earth', 'timber'];
const greys = ['#000', '#fff', '#e8e8e8'];
const letterSizes = [3.1, 3.4];  // mm: names of parts, and values
// At half its size a figure still has letters of this size, and indices of that, in points.
const smallestAtHalf = 4.3;
const smallestIndexAtHalf = 3.1;
const pointsPerMillimetre = 72 / 25.4;

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

/** Runs in the page: everything that the tests want to know of each figure. */
function readFigures() {
  const numbers = text => text.trim().split(/[ ,]+/).map(Number);
  const shapesOf = svg => [...svg.querySelectorAll(':scope > g polyline, :scope > g polygon')];
  return [...document.querySelectorAll('.figure svg')].map(svg => {
    const drawn = [...svg.querySelectorAll('*')].filter(part => !part.closest('defs'));
    const inDefinitions = [...svg.querySelectorAll('defs *')];
    const all = (parts, attribute) => [...new Set(
        parts.map(part => part.getAttribute(attribute)).filter(value => value !== null))];
    const labels = [...svg.querySelectorAll('text')].map(text => {
      const size = Number(text.getAttribute('font-size'));
      const width = text.getComputedTextLength();
      const x = Number(text.getAttribute('x'));
      const y = Number(text.getAttribute('y'));
      const left = text.getAttribute('text-anchor') === 'start' ? x : x - width / 2;
      const turn = text.transform.baseVal.consolidate()?.matrix;
      // Capitals are 0.72 high; descenders go 0.21 below the baseline.
      const corners = [[left, y - 0.72 * size], [left + width, y - 0.72 * size],
                       [left + width, y + 0.21 * size], [left, y + 0.21 * size]]
          .map(([px, py]) => turn ? [turn.a * px + turn.c * py + turn.e,
                                     turn.b * px + turn.d * py + turn.f]
                                  : [px, py]);
      const indices = [...text.querySelectorAll('tspan[font-size]')].map(
          index => Number(index.getAttribute('font-size')));
      return {text: text.textContent, size, corners, indices};
    });
    const heavy = shapesOf(svg)
        .filter(shape => ['.7', '1'].includes(shape.getAttribute('stroke-width')))
        .map(shape => {
          const values = numbers(shape.getAttribute('points'));
          return values.flatMap((value, index) => index % 2 ? [] : [[value, values[index + 1]]]);
        });
    return {
      file: svg.parentElement.id,
      title: svg.querySelector('title').textContent,
      description: svg.querySelector('desc').textContent,
      box: numbers(svg.getAttribute('viewBox')),
      labels,
      heavy,
      fills: all(drawn, 'fill'),
      strokes: all(drawn, 'stroke'),
      widths: all(drawn.filter(part => !['text', 'g'].includes(part.localName)), 'stroke-width')
          .map(Number),
      hatches: [...svg.querySelectorAll('pattern')].map(one => one.id.split('-').pop()),
      hatchWidths: all(inDefinitions, 'stroke-width').map(Number),
      hatchInks: all(inDefinitions, 'stroke'),
      otherInks: drawn.filter(part => part.hasAttribute('style') || part.hasAttribute('class')).length,
    };
  });
}

/** The upright bounds of points: least and greatest x, least and greatest y. */
function boundsOf(points) {
  const bounds = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    bounds[0] = Math.min(bounds[0], x);
    bounds[1] = Math.max(bounds[1], x);
    bounds[2] = Math.min(bounds[2], y);
    bounds[3] = Math.max(bounds[3], y);
  }
  return bounds;
}

/** Whether two convex shapes are apart: their bounds are, or some edge's normal tells them apart. */
function apart(one, other) {
  const [left, right, top, bottom] = boundsOf(one);
  const [otherLeft, otherRight, otherTop, otherBottom] = boundsOf(other);
  if (right < otherLeft || otherRight < left || bottom < otherTop || otherBottom < top) {
    return true;
  }
  return [[one, other], [other, one]].some(([a, b]) => a.some(([x, y], index) => {
    const [nextX, nextY] = a[(index + 1) % a.length];
    const along = ([px, py]) => px * (nextY - y) - py * (nextX - x);
    const inside = Math.max(...a.map(along));
    return Math.min(...b.map(along)) >= inside - 1e-6;
  }));
}

function faultsOfLanguage(figure) {
  const faults = [];
  const strange = (values, allowed) => values.filter(value => !allowed.includes(value));
  const note = (what, values) => values.length && faults.push(`${what} ${values}`);
  note('line widths', strange(figure.widths, lineWidths));
  note('hatch lines', strange(figure.hatchWidths, hatchWidths));
  note('hatches', strange(figure.hatches, hatches));
  note('ink', strange([...figure.strokes, ...figure.hatchInks], [...greys, 'none']));
  note('fills', figure.fills.filter(
      fill => !greys.includes(fill) && fill !== 'none' && !/^url\(#[\w-]+\)$/.test(fill)));
  note('sizes of letters', strange(figure.labels.map(label => label.size), letterSizes));
  note('styles of its own', figure.otherInks ? [figure.otherInks] : []);
  for (const label of figure.labels) {
    const half = millimetres => millimetres / 2 * pointsPerMillimetre;
    if (half(label.size) < smallestAtHalf ||
        label.indices.some(index => half(index) < smallestIndexAtHalf)) {
      faults.push(`"${label.text}" is too small at half size`);
    }
  }
  return faults;
}

function faultsOfPlacing({labels, box}) {
  const faults = [];
  const [, , width, height] = box;
  labels.forEach((label, index) => {
    if (label.corners.some(([x, y]) => x < 0 || y < 0 || x > width || y > height)) {
      faults.push(`"${label.text}" leaves the frame`);
    }
    for (const other of labels.slice(0, index)) {
      if (!apart(label.corners, other.corners)) {
        faults.push(`"${label.text}" lies on "${other.text}"`);
      }
    }
  });
  return faults;
}

/** How many labels have a heavy line (a rope, a standing surface) through the middle of the text. */
function labelsOnHeavyLines({labels, heavy}) {
  const pieces = heavy.flatMap(line => line.slice(1).map((point, index) => [line[index], point]));
  return labels.filter(({corners}) => pieces.some(piece => !apart(corners, piece))).length;
}

/** The values that a figure prints, without their symbols: "16 ft" of "L = 16 ft". */
function valuesShown({labels}) {
  return labels.map(({text}) => text.split(' = ')[1]).filter(value => value && value !== '?');
}

const plain = text => text.replaceAll('\u00a0', ' ');

function numbersIn(text) {
  // Not the indices of symbols.
  return plain(text).match(/(?<![\p{L}_])(?:\d[\d,.]*\d|\d)/gu) ?? [];
}

/** A sheet's text alternative has every given that the figure shows, and nothing worked out. */
function faultsOfTelling(figure, question, isKey) {
  const faults = [];
  const told = plain(figure.description);
  for (const value of valuesShown(figure)) {
    if (!told.includes(plain(value))) {
      faults.push(`the description does not tell ${value}: ${told}`);
    }
  }
  if (isKey) {
    return faults;
  }
  const givens = [...Object.values(question.givens ?? {}).map(given => given.text),
                  ...question.calculations.flatMap(
                      calculation => Object.values(calculation.inputs).map(input => input.text)),
                  question.stem].filter(Boolean).flatMap(numbersIn);
  // The name of what is asked may say when it is 0.
  for (const number of numbersIn(`${figure.title} ${told.replace(/\(0: [^)]*\)/g, '')}`)) {
    if (!givens.includes(number)) {
      faults.push(`the description tells ${number}, which the question does not give: ${told}`);
    }
  }
  return faults;
}

/** A copy of the bank with the items that have a figure, and a blueprint that asks for them all. */
function makeDrawnBank() {
  const bank = join(temporaryFolder(), 'bank');
  cpSync(join(project, 'questionbank'), bank, {recursive: true});
  let items = 0;
  let sections = '';
  for (const topic of readdirSync(join(bank, 'items'))) {
    const folder = join(bank, 'items', topic);
    const files = readdirSync(folder).map(file => join(folder, file));
    const drawn = files.filter(file => readFileSync(file, 'utf8').includes('<figure'));
    files.filter(file => !drawn.includes(file)).forEach(file => unlinkSync(file));
    items += drawn.length;
    if (drawn.length) {
      sections += `<section topic="${topic}" questions="${drawn.length}"/>`;
    }
  }
  const text = '<en>Every figure</en><es>Todas las figuras</es>';
  writeFileSync(join(bank, 'blueprints/every-figure.xml'),
                `<blueprint xmlns="urn:footroom:bank" id="every-figure" minutes="60" ` +
                `same-items="true"><title>${text}</title><course>${text}</course>${sections}` +
                '</blueprint>');
  return {bank, items};
}

/** Reads many drawings in one page, which holds nothing else. */
async function readDrawings(folder, files) {
  const page = join(folder, 'drawings.html');
  const drawings = files.map(file => {
    const drawing = readFileSync(join(folder, 'figures', file), 'utf8').replace(/^<\?.*\?>\n/, '');
    return `<div class="figure" id="${file}">${drawing}</div>`;
  });
  writeFileSync(page, `<!DOCTYPE html><meta charset="utf-8">${drawings.join('')}`);
  const opened = await openPage(browser, page);
  const figures = await opened.page.evaluate(readFigures);
  assert.deepEqual(opened.complaints, []);
  await opened.close();
  assert.equal(figures.length, files.length);
  return figures;
}

test(`the figures of ${enough} draws keep to the drawing language`, async () => {
  const {bank, items} = makeDrawnBank();
  const sheets = Math.ceil(enough / items / everyEdition.length);
  let draws = 0;
  let labels = 0;
  let onHeavyLines = 0;
  const faults = [];
  for (const [index, edition] of everyEdition.entries()) {
    const folder = join(temporaryFolder(), 'quiz');
    footroom('quiz', '--bank', bank, '--blueprint', 'every-figure', '--sheets', String(sheets),
             '--seed', String(100 + index), '--date', '2026-11-24', '--out', folder,
             ...editionOptions(edition));
    const quiz = JSON.parse(readFileSync(join(folder, 'quiz.json'), 'utf8'));
    const questions = new Map(quiz.sheets.flatMap(sheet => sheet.questions.map(
        question => [`${sheet.seat}-${question.number}`, question])));
    for (const figure of await readDrawings(folder, readdirSync(join(folder, 'figures')))) {
      const [, place, key] = figure.file.match(/^([A-Z]+-\d+)(-key)?\.svg$/);
      const question = questions.get(place);
      const found = [...faultsOfLanguage(figure), ...faultsOfPlacing(figure),
                     ...faultsOfTelling(figure, question, Boolean(key))];
      faults.push(...found.map(fault => `${question.item}, ${figure.file}, ` +
                                        `${edition.language} ${edition.units}: ${fault}`));
      draws += key ? 0 : 1;
      labels += figure.labels.length;
      onHeavyLines += labelsOnHeavyLines(figure);
    }
    rmSync(folder, {recursive: true});
  }
  assert.ok(draws >= enough, `only ${draws} draws`);
  assert.deepEqual(faults.slice(0, 20), [], `${faults.length} faults`);
  console.log(`${labels} labels, ${onHeavyLines} on heavy lines`);
  assert.ok(onHeavyLines < labels / 100, `${onHeavyLines} of ${labels} labels lie on heavy lines`);
});
