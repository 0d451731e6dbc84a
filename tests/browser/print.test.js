// Sheets, keys and certificates on paper.
//
// As planned means: each sheet begins on a page of its own; the foot of every page tells which page
// of which sheet it is; a sheet printed by itself tells how many there are, and has that many; its
// end mark stands on the last of them; printed with the others it has as many. On a sheet, no
// question goes over two pages, no page is without one but the first, which has the formulas.

import assert from 'node:assert/strict';
import {mkdirSync, readFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {openPage, printToPdf, startBrowser} from './support/browser.js';
import {editionOptions, footroom, temporaryFolder} from './support/footroom.js';
import {makeEveryPage} from './support/pages.js';
import {pagePictures, pageTexts, pageWords, paperSizes, patches} from './support/paper.js';

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

/**
 * Marks where each question begins and ends, in letters that move nothing, and colours the paper of each figure.
 * Returns the sizes that the figures have on paper, in mm.
 */
async function markQuestionsAndFigures(page) {
  return page.evaluate(() => {
    const mark = (element, text, place) => {
      const letters = document.createElement('span');
      letters.textContent = text;
      letters.style.cssText = `position: absolute; left: 0; font: 4px serif; ${place}: 0`;
      element.append(letters);
    };
    document.querySelectorAll('.question').forEach((question, index) => {
      mark(question, `begin-${index}-`, 'top');
      mark(question, `end-${index}-`, 'bottom');
    });
    // Where anything is too wide, the browser prints everything smaller: figures and this ruler.
    const ruler = document.createElement('div');
    ruler.style.cssText = 'position: absolute; top: 0; width: 100mm; height: 2mm; background: #f0f';
    document.body.prepend(ruler);
    const sizes = [...document.querySelectorAll('.figure svg')].map(svg => {
      svg.querySelector('rect').setAttribute('fill', '#f0f');  // the drawing's paper
      const [width, height] = ['width', 'height'].map(side => parseFloat(svg.getAttribute(side)));
      const most = svg.closest('.beside') ? 92 : width;  // as styles.css has it
      const shrink = Math.min(1, most / width);
      return {width: width * shrink, height: height * shrink};
    });
    return [{width: 100, height: 2}, ...sizes];
  });
}

async function print(file) {
  const {page, close} = await openPage(browser, file);
  const figures = await markQuestionsAndFigures(page);
  const pdf = join(temporaryFolder(), 'printed.pdf');
  await printToPdf(page, pdf);
  await close();
  return {pdf, figures, texts: pageTexts(pdf), pages: pageWords(pdf)};
}

function expectPaper({pages}, paper) {
  const {width, height} = paperSizes[paper];
  for (const page of pages) {
    assert.ok(Math.abs(page.width - width) < 1 && Math.abs(page.height - height) < 1);
    for (const word of page.words) {
      assert.ok(word.left >= 0 && word.right <= page.width && word.top >= 0 &&
                word.bottom <= page.height, `"${word.text}" is cut`);
    }
  }
}

/** On which page, counted from 0, each question begins and ends. */
function questionPages({pages}) {
  const begins = [];
  const ends = [];
  pages.forEach(({words}, page) => {
    for (const {text} of words) {
      for (const [, what, index] of text.matchAll(/(begin|end)-(\d+)-/g)) {
        (what === 'begin' ? begins : ends)[Number(index)] = page;
      }
    }
  });
  return {begins, ends};
}

function expectWholeQuestions(printed, count) {
  const {begins, ends} = questionPages(printed);
  assert.equal(begins.length, count);
  assert.deepEqual(begins, ends, 'a question goes over two pages');
  const filled = new Set(begins);
  printed.pages.forEach((page, index) => {
    assert.ok(index === 0 || filled.has(index), `page ${index + 1} has no question`);
  });
}

/** Each figure is found whole, with the size that it should have. */
function expectWholeFigures({pdf, figures}) {
  const dotsPerInch = 72;
  const coloured = (red, green, blue) => red > green + 60 && blue > green + 60;
  const millimetres = dots => dots / dotsPerInch * 25.4;
  const within = (one, other) => one !== other && one.left >= other.left &&
      one.right <= other.right && one.top >= other.top && one.bottom <= other.bottom;
  // Lines cut off pieces of a figure's paper; around them all there is a rim.
  const found = pagePictures(pdf, dotsPerInch).flatMap(picture => {
    const boxes = patches(picture, coloured);
    return boxes.filter(box => !boxes.some(other => within(box, other)));
  });
  assert.equal(found.length, figures.length);
  found.forEach((box, index) => {
    const wide = millimetres(box.right - box.left);
    const high = millimetres(box.bottom - box.top);
    const expected = figures[index];
    assert.ok(Math.abs(wide - expected.width) < 0.8 && Math.abs(high - expected.height) < 0.8,
              `figure ${index} is ${wide} by ${high} mm, expected ` +
              `${expected.width} by ${expected.height} mm`);
  });
}

const say = {
  en: {pageOf: /page (\d+) of (\d+)/, seatPage: /Seat ([A-Z]+) · page (\d+)/,
       end: /End of the (?:sheet|key) for seat ([A-Z]+)/},
  es: {pageOf: /página (\d+) de (\d+)/, seatPage: /Puesto ([A-Z]+) · página (\d+)/,
       end: /Fin de la (?:hoja|clave) del puesto ([A-Z]+)/},
};

/** The feet count from 1 to the number of pages, which they tell; the end mark is on the last. */
function expectCountedPages({texts}, {pageOf, end}) {
  texts.forEach((text, index) => {
    const foot = text.match(pageOf);
    assert.ok(foot, `page ${index + 1} has no foot`);
    assert.deepEqual(foot.slice(1).map(Number), [index + 1, texts.length]);
    assert.equal(end.test(text), index + 1 === texts.length, `end mark, page ${index + 1}`);
  });
}

/** The number of pages of each seat, in their order. */
function pagesBySeat({texts}, {seatPage, end}) {
  const counts = new Map();
  texts.forEach((text, index) => {
    const [, seat, page] = text.match(seatPage) ?? assert.fail(`page ${index + 1} has no foot`);
    assert.equal(Number(page), (counts.get(seat) ?? 0) + 1, `foot of page ${index + 1}`);
    counts.set(seat, Number(page));
    const ends = text.match(end);
    const next = texts[index + 1]?.match(seatPage)[1];
    assert.equal(ends?.[1], next === seat ? undefined : seat, `end mark, page ${index + 1}`);
  });
  return counts;
}

const prints = [
  {language: 'en', units: 'us', paper: 'letter', blueprint: 'weekly', seed: '3', sheets: 3},
  {language: 'es', units: 'si', paper: 'a4', blueprint: 'weekly', seed: '4', sheets: 2},
  {language: 'es', units: 'us', paper: 'letter', blueprint: 'entry-check', seed: '5', sheets: 1},
  {language: 'en', units: 'si', paper: 'a4', blueprint: 'term-test', seed: '6', sheets: 1},
];

for (const {paper, blueprint, seed, sheets, ...edition} of prints) {
  test(`${blueprint} in ${edition.language}, ${edition.units}, on ${paper}`, async () => {
    const words = say[edition.language];
    const folder = join(temporaryFolder(), 'quiz');
    footroom('quiz', '--blueprint', blueprint, '--seed', seed, '--sheets', String(sheets), '--date',
             '2026-11-24', '--paper', paper, '--out', folder, ...editionOptions(edition));
    const quiz = JSON.parse(readFileSync(join(folder, 'quiz.json'), 'utf8'));
    const questions = quiz.sheets.map(sheet => sheet.questions.length);
    for (const face of ['sheet', 'key']) {
      const alone = new Map();
      for (const [index, {seat}] of quiz.sheets.entries()) {
        const printed = await print(join(folder, `${face}-${seat}.html`));
        expectPaper(printed, paper);
        expectCountedPages(printed, words);
        if (face === 'sheet') {
          expectWholeQuestions(printed, questions[index]);
        }
        expectWholeFigures(printed);
        alone.set(seat, printed.pages.length);
      }
      const together = await print(join(folder, `all-${face}s.html`));
      expectPaper(together, paper);
      assert.deepEqual(pagesBySeat(together, words), alone);
      if (face === 'sheet') {
        const {begins, ends} = questionPages(together);
        assert.deepEqual(begins, ends);
        assert.equal(begins.length, questions.reduce((sum, count) => sum + count, 0));
      }
    }
  });
}

for (const paper of ['letter', 'a4']) {
  test(`feedback and certificates on ${paper}`, async () => {
    const edition = paper === 'letter' ? {language: 'en', units: 'us'} : {language: 'es', units: 'si'};
    const folder = join(temporaryFolder(), 'pages');
    mkdirSync(folder);
    const pages = makeEveryPage(folder, edition, {paper});
    for (const name of ['feedback', 'class-report', 'person-record']) {
      const printed = await print(pages[name]);
      expectPaper(printed, paper);
      expectWholeFigures(printed);
      printed.texts.forEach((text, index) => assert.deepEqual(
          text.match(say[edition.language].pageOf)?.slice(1).map(Number),
          [index + 1, printed.texts.length]));
    }
    const certificates = await print(pages.certificate);
    expectPaper(certificates, paper);
    assert.equal(certificates.pages.length, 3);
    ['Ana Ejemplo', 'Ben Sample', 'Cleo Muster'].forEach(
        (name, index) => assert.ok(certificates.texts[index].includes(name)));
  });
}
