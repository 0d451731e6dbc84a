// The HTML by itself: valid, self-contained, small.

import assert from 'node:assert/strict';
import {readFileSync, readdirSync, statSync} from 'node:fs';
import {join} from 'node:path';
import {test} from 'node:test';
import {HtmlValidate} from 'html-validate';
import {editionOptions, everyEdition, footroom, temporaryFolder} from './support/footroom.js';
import {makeEveryPage} from './support/pages.js';

const validator = new HtmlValidate({
  root: true,
  extends: ['html-validate:recommended'],
  rules: {
    // The pages are XML too, so that a program can read them.
    'void-style': ['error', {style: 'selfclosing'}],
    // An article names the kind of pages that it is printed on, and nothing else.
    'no-inline-style': ['error', {allowedProperties: ['page']}],
  },
});

for (const edition of everyEdition) {
  test(`pages in ${edition.language}, ${edition.units} are valid and by themselves`, async () => {
    for (const [name, file] of Object.entries(makeEveryPage(temporaryFolder(), edition))) {
      const report = await validator.validateFile(file);
      const found = report.results.flatMap(result => result.messages.map(
          message => `${name}:${message.line}:${message.column} ${message.ruleId}: ${message.message}`));
      assert.deepEqual(found, []);
      const text = readFileSync(file, 'utf8');
      assert.doesNotMatch(text, /<(script|link|img|iframe|object|embed|base|form)\b/);
      assert.doesNotMatch(text, /@import|url\((?!#)|\b(src|srcset|action|data)=/);
      assert.match(text, /Content-Security-Policy" content="default-src 'none'/);
    }
  });
}

test('the median sheet of twelve questions is smaller than 200 kB', () => {
  const sizes = [];
  for (const edition of everyEdition) {
    const folder = join(temporaryFolder(), 'quiz');
    footroom('quiz', '--blueprint', 'weekly', '--sheets', '12', '--seed', '29', '--date',
             '2026-11-24', '--out', folder, ...editionOptions(edition));
    const quiz = JSON.parse(readFileSync(join(folder, 'quiz.json'), 'utf8'));
    assert.ok(quiz.sheets.every(sheet => sheet.questions.length === 12));
    for (const file of readdirSync(folder).filter(name => /^sheet-.*\.html$/.test(name))) {
      sizes.push(statSync(join(folder, file)).size);
    }
  }
  assert.equal(sizes.length, 48);
  sizes.sort((a, b) => a - b);
  assert.ok(sizes[24] < 200_000, `${sizes[24]} bytes`);
});
