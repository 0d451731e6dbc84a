import {readFileSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {editionOptions, footroom} from './footroom.js';

const quizDay = '2026-11-24';

function rightAnswer({answer}) {
  return answer.text ?? answer.right.join('');
}

/** What a class would write: right, a known mistake, unreadable, nothing, wrong by far. */
function writtenAnswer(question, turn) {
  const mistake = question.mistakes.find(one => one.text ?? one.option);
  switch (turn % 5) {
    case 1:
      return mistake?.text ?? mistake?.option ?? rightAnswer(question);
    case 2:
      return 'see the back of the page';
    case 3:
      return '';
    case 4:
      return question.kind === 'number' ? '7777' : 'A';
    default:
      return rightAnswer(question);
  }
}

function csvCell(text) {
  return `"${text.replaceAll('"', '""')}"`;
}

/** Fills in the form of a quiz, each seat in its own way. */
function fillInForm(quizFile, formFile) {
  const quiz = JSON.parse(readFileSync(quizFile, 'utf8'));
  const most = Math.max(...quiz.sheets.map(sheet => sheet.questions.length));
  const numbers = Array.from({length: most}, (_, index) => index + 1);
  const rows = quiz.sheets.map((sheet, seat) => [
    sheet.seat, sheet.name ?? '', sheet.code,
    ...sheet.questions.map((question, index) => writtenAnswer(question, seat + index)),
  ]);
  writeFileSync(formFile, [['seat', 'name', 'code', ...numbers.map(String)], ...rows]
      .map(row => row.map(csvCell).join(',')).join('\r\n') + '\r\n');
}

/** Writes a quiz for a few invented people and returns its folder. */
export function makeQuiz(folder, edition, ...options) {
  const roster = join(folder, 'class.csv');
  writeFileSync(roster, 'name\nAna Ejemplo\nBen Sample\nCleo Muster\n');
  const quiz = join(folder, 'quiz');
  footroom('quiz', '--roster', roster, '--date', quizDay, '--out', quiz,
           ...editionOptions(edition), ...options);
  return quiz;
}

function makeRecords(folder, {language}, results, paper) {
  const store = join(folder, 'crew.db');
  const record = (...words) => footroom('record', ...words, '--store', store);
  const add = (...words) => record(...words, '--date', quizDay);
  record('init');
  add('add-employer', 'Invented Roofing', '--place', 'Sampletown');
  add('add-course', 'fall-protection', '--english', 'Fall protection', '--spanish',
      'Protección contra caídas');
  add('set-policy', '--employer', 'Invented Roofing', '--course', 'fall-protection',
      '--refresher-months', '12');
  for (const [name, identity] of
       [['Ana Ejemplo', 'A-1'], ['Ben Sample', 'A-2'], ['Cleo Muster', 'A-3']]) {
    add('add-person', name, '--identity', identity, '--employer', 'Invented Roofing');
  }
  add('add-person', 'Theo Trainer', '--identity', 'T-1');
  add('add-session', '--course', 'fall-protection', '--days', quizDay, '--people', 'A-1,A-2,A-3',
      '--trainer', 'T-1', '--place', 'Yard');
  add('add-results', results);
  const session = '8';
  record('certificate', '--session', session, '--out', join(folder, 'certificates'), '--language',
         language, '--paper', paper);
  record('report', 'A-1', '--out', join(folder, 'person'), '--language', language, '--paper', paper);
}

/**
 * Has the program write every kind of page into `folder`, for an edition ({language, units}).
 * Returns the files by the name of the page.
 */
export function makeEveryPage(folder, edition, {seed = '11', paper = 'letter'} = {}) {
  const quiz = makeQuiz(folder, edition, '--seed', seed, '--paper', paper);
  const term = join(folder, 'term');
  footroom('quiz', '--blueprint', 'term-test', '--sheets', '1', '--seed', seed, '--date', quizDay,
           '--paper', paper, '--out', term, ...editionOptions(edition));
  const form = join(folder, 'responses.csv');
  fillInForm(join(quiz, 'quiz.json'), form);
  const graded = join(folder, 'graded');
  footroom('grade', join(quiz, 'quiz.json'), form, '--out', graded);
  const results = join(graded, 'results.json');
  const items = join(folder, 'items');
  footroom('statistics', results, '--out', items, '--language', edition.language);
  makeRecords(folder, edition, results, paper);
  const manual = join(folder, 'manual');
  footroom('manual', '--out', manual, ...editionOptions(edition));
  return {
    'sheet': join(quiz, 'sheet-A.html'),
    'key': join(quiz, 'key-A.html'),
    'all-sheets': join(quiz, 'all-sheets.html'),
    'all-keys': join(quiz, 'all-keys.html'),
    'term-test-sheet': join(term, 'sheet-A.html'),
    'term-test-key': join(term, 'key-A.html'),
    'feedback': join(graded, 'feedback-A.html'),
    'all-feedback': join(graded, 'all-feedback.html'),
    'class-report': join(graded, 'class-report.html'),
    'statistics': join(items, 'statistics.html'),
    'certificate': join(folder, 'certificates', 'all-certificates.html'),
    'person-record': join(folder, 'person', 'person-4.html'),
    'manual': join(manual, 'manual.html'),
  };
}
