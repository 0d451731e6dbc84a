// A QTI package in a client of its own: an independent component library shows each item, takes
// responses and scores them; footroom grade says what they earn.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {readFileSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {keepPicture, openPage, startBrowser} from './support/browser.js';
import {editionOptions, footroom, project, temporaryFolder} from './support/footroom.js';

const library = join(project, 'tests/browser/node_modules/@citolab/qti-components/cdn/index.global.js');
const seats = 8;

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

/** What a student might answer to a question: each as the letters or the number given. */
function trials({kind, answer, mistakes}) {
  if (kind === 'number') {
    const {value, tolerance} = answer;
    const beside = Math.max(tolerance, Math.abs(value) * 1e-6) * 0.03;
    return [value, value + tolerance, value - tolerance, value + tolerance + beside,
            value - tolerance - beside, ...mistakes.map(mistake => mistake.value),
            3 * value + 7].map(number => Number(number.toPrecision(12)));
  }
  const letters = answer.options.map(option => option.letter);
  const wrong = letters.filter(letter => !answer.right.includes(letter));
  if (kind === 'order') {
    const [first, second, ...rest] = answer.right;
    return [answer.right, [second, first, ...rest], [...answer.right].reverse(),
            [...rest, first, second]];
  }
  if (kind === 'several-of') {
    return [answer.right, answer.right.slice(0, 1), letters, wrong.slice(0, 1),
            [...answer.right.slice(0, 2), ...wrong.slice(0, 1)], answer.right.slice(1)].filter(
        marked => marked.length > 0);
  }
  return [answer.right, ...wrong.map(letter => [letter])];
}

/** As it stands in responses.csv. */
function typed(given) {
  return Array.isArray(given) ? given.join(' ') : String(given);
}

/** Shows an item to the library, gives it a response and returns what its outcomes are. */
async function outcomesOf(page, xml, given) {
  const response = Array.isArray(given) ? given : String(given);
  return page.evaluate(async ({xml, response}) => {
    const host = document.createElement('qti-item');
    const container = document.createElement('item-container');
    container.itemXML = xml;
    host.append(container);
    document.body.replaceChildren(host);
    const loaded = () => container.shadowRoot?.querySelector('qti-assessment-item');
    while (!loaded()?.variables?.some(variable => variable.identifier === 'RESPONSE')) {
      await new Promise(resolve => requestAnimationFrame(resolve));
    }
    const item = loaded();
    const single = ['single'].includes(
        item.querySelector('qti-response-declaration').getAttribute('cardinality'));
    item.updateResponseVariable('RESPONSE', single && Array.isArray(response) ? response[0]
                                                                              : response);
    const shown = () => [...container.shadowRoot.querySelectorAll('qti-feedback-block')].filter(
        block => block.checkVisibility() && block.innerText.trim() !== '').map(
        block => block.getAttribute('identifier'));
    const before = shown();
    item.processResponse();
    await new Promise(resolve => requestAnimationFrame(() => requestAnimationFrame(resolve)));
    return {...Object.fromEntries(item.variables.map(one => [one.identifier, one.value])), before,
            after: shown()};
  }, {xml, response});
}

for (const edition of [{language: 'en', units: 'us'}, {language: 'es', units: 'si'}]) {
  test(`each kind is scored as grade does, in ${edition.language} and ${edition.units}`, async () => {
    const scratch = temporaryFolder();
    const made = join(scratch, 'made');
    footroom('quiz', '--blueprint', 'term-test', '--seed', '20261124', '--date', '2026-11-24',
             '--sheets', String(seats), '--out', made, ...editionOptions(edition));
    const quiz = JSON.parse(readFileSync(join(made, 'quiz.json')));

    // Each seat tries another answer.
    const given = quiz.sheets.map((sheet, seat) => sheet.questions.map(question => {
      const all = trials(question);
      return all[seat % all.length];
    }));
    const head = ['seat', 'name', 'code', ...quiz.sheets[0].questions.map(one => one.number)];
    const rows = quiz.sheets.map((sheet, seat) => [sheet.seat, 'Test', sheet.code,
                                                   ...given[seat].map(typed)]);
    writeFileSync(join(scratch, 'responses.csv'), [head, ...rows].map(row => row.join(',')).join('\r\n'));
    footroom('grade', join(made, 'quiz.json'), join(scratch, 'responses.csv'), '--out',
             join(scratch, 'graded'));
    const results = JSON.parse(readFileSync(join(scratch, 'graded', 'results.json')));

    footroom('export', 'qti', made, '--out', join(scratch, 'quiz.zip'));
    execFileSync('/usr/bin/python3', ['-m', 'zipfile', '-e', join(scratch, 'quiz.zip'),
                                      join(scratch, 'package')]);
    writeFileSync(join(scratch, 'client.html'), '<!DOCTYPE html><html lang="en"><title>Client</title>');
    const opened = await openPage(browser, join(scratch, 'client.html'));
    await opened.page.addScriptTag({path: library});

    const kinds = new Set();
    const outcomes = new Set();
    for (const [seat, sheet] of quiz.sheets.entries()) {
      for (const [index, question] of sheet.questions.entries()) {
        const name = `${sheet.seat}-${question.number}`;
        const xml = readFileSync(join(scratch, 'package', 'items', `${name}.xml`), 'utf8');
        const response = given[seat][index];
        const scored = await outcomesOf(opened.page, xml, response);
        const graded = results.seats[seat].questions[index];
        const told = `${name} (${question.item}), ${typed(response)}: ${graded.outcome}`;
        assert.equal(Number(scored.SCORE), graded.points, told);
        assert.equal(Number(scored.MAXSCORE), question.points, told);
        assert.equal(scored.SOLUTION, 'solution', told);
        if (question.kind === 'number') {
          const expected = graded.outcome === 'named-mistake' ? `mistake-${graded.mistake}`
              : graded.outcome.startsWith('right') ? 'right' : 'wrong';
          assert.equal(scored.FEEDBACK, expected, told);
        }
        const feedback = [scored.FEEDBACK].flat();
        assert.deepEqual(scored.before, [], told);
        assert.deepEqual([...scored.after].sort(), [...feedback, 'solution'].sort(), told);
        kinds.add(question.kind);
        outcomes.add(`${question.kind} ${graded.outcome}`);
        if (seat === 0) {
          await keepPicture(opened.page, `qti-${edition.language}-${question.number}`);
        }
      }
    }
    for (const kind of ['number', 'one-of', 'several-of', 'order', 'verdict']) {
      assert.ok(kinds.has(kind), `no question is of the kind ${kind}`);
    }
    for (const outcome of ['number named-mistake', 'several-of partly-right', 'order partly-right']) {
      assert.ok(outcomes.has(outcome), `nothing came out as ${outcome}`);
    }
    await opened.close();
  });
}
