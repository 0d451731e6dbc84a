// An employer's month at the desk, from an empty folder to a backup: who was trained, on what, with
// which result, and who is due. Invented people.

import assert from 'node:assert/strict';
import {readFileSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {printToPdf, startBrowser} from './support/browser.js';
import {chooseSpanish, deskRuns, startDesk, visitDesk} from './support/desk.js';
import {footroom, temporaryFolder} from './support/footroom.js';
import {pageTexts} from './support/paper.js';

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

const roster = `identity,name,employer
A-1,Ana Ejemplo,Invented Roofing
A-2,Ben Sample,Invented Roofing
A-3,Cleo Muster,Invented Roofing
`;

/** The next year's day one month on: everybody who trained today is due by then. */
function afterTheInterval() {
  const day = new Date();
  return `${day.getFullYear() + 1}-12-31`;
}

/** Walks the month; `look` is called at each page with its name. */
async function walkMonth(page, desk, language, look) {
  const go = path => page.goto(new URL(path, desk.address).href);
  const path = () => new URL(page.url()).pathname;
  const send = async action => {
    await page.locator(`form[action="${action}"] button`).first().click();
    await page.waitForLoadState();
  };
  const follow = address => page.locator(`main a[href="${address}"]`).first().click();
  const save = async address => {
    const saving = page.waitForEvent('download');
    await page.locator(`a[href="${address}"]`).click();
    return (await saving).path();
  };
  const entries = async () => {
    await go('/records');
    return Number((await page.locator('.place').first().innerText()).split(':')[0]);
  };
  await page.goto(desk.address);
  if (language === 'es') await chooseSpanish(page, desk.address);

  // Nothing is there yet, and every room says what comes first.
  for (const [room, name] of [['/sessions', 'sessions'], ['/sessions/new', 'session'],
                              ['/certificates', 'certificates'], ['/records', 'records']]) {
    await go(room);
    await look(`${name}-empty`);
  }

  // What people are trained in, and after how long again.
  await go('/courses');
  await look('courses-empty');
  await send('/courses');
  await page.locator('#code-error').waitFor();
  await look('courses-wrong');
  await page.locator('#code').fill('fall-protection');
  await page.locator('#english').fill('Fall protection');
  await page.locator('#spanish').fill('Protección contra caídas');
  await send('/courses');
  await look('course-without-employer');
  await go('/courses');
  await page.locator('#name').fill('Invented Roofing');
  await page.locator('#place').fill('Sampletown');
  await send('/employers');
  await look('courses');
  await follow('/courses/1');
  await page.locator('#months').fill('often');
  await send('/courses/1/interval');
  await page.locator('#months-error').waitFor();
  await look('interval-wrong');
  await page.locator('#months').fill('12');
  await send('/courses/1/interval');
  await page.locator('.told').waitFor();
  await look('course');
  await go('/courses');
  await follow('/employers/2');
  await look('employer');

  // The people, from a list.
  await go('/people/import');
  await page.locator('#pasted').fill(roster);
  await send('/people/import');
  await page.locator('.told').waitFor();
  await look('people-import');

  // A quiz is given to the class and graded.
  await go('/classes');
  await page.locator('#title').fill('Monday crew');
  await page.locator('#names').fill('Ana Ejemplo\nBen Sample\nDan Nuevo');
  await send('/classes');
  await go('/quizzes/new?class=1');
  await send('/quizzes/new');
  await page.locator('#questions').waitFor();
  for (const seat of ['A', 'B', 'C']) {
    await go(`/quizzes/1/answers/${seat}`);
    await page.locator('input[id^="answer-"]').first().fill('12.5');
    await send(`/quizzes/1/answers/${seat}`);
  }
  await go('/quizzes/1/answers');
  await send('/quizzes/1/grade');
  await page.locator('#scores-heading').waitFor();

  // The session, of that class: the names are found among the people, one is new.
  await go('/sessions/new?from=class-1');
  await look('session-of-class');
  await page.locator('#more-days').fill('2026-02-30');
  await send('/sessions/new');
  await page.locator('#more-days-error').waitFor();
  await look('session-wrong');
  await page.locator('#more-days').fill('');
  await page.locator('#new-trainer').fill('Theo Trainer');
  await page.locator('#place').fill('Yard');
  await page.locator('#name-2-2').uncheck();
  await send('/sessions/new');
  await page.locator('#who').waitFor();
  const session = path();
  assert.equal(await page.locator('#who + ul li').count(), 3);
  await look('session');
  for (const part of await page.locator('summary').all()) await part.click();
  await look('session-opened');
  await go('/sessions/new?from=people');
  await look('session-of-people');
  await go('/sessions/new?from=employer-2');
  await look('session-of-employer');
  await go('/sessions');
  await look('sessions');

  // The results of the quiz, as a test.
  await go('/quizzes/1/results');
  await follow('/quizzes/1/record');
  await look('results-into-records');
  await send('/quizzes/1/record');
  await page.locator('.told').waitFor();
  const once = await entries();
  await go('/quizzes/1/record');
  await send('/quizzes/1/record');
  assert.equal(await entries(), once);

  // Certificates, the same ones again without new entries.
  await go(session);
  await send(`${session}/certificates`);
  assert.equal(await page.locator('main ul.rows li').count(), 2);
  await look('certificates-of-session');
  const issued = await entries();
  await go(session);
  await send(`${session}/certificates`);
  assert.equal(await entries(), issued);
  await go('/certificates');
  await page.locator('#person').selectOption({label: 'Ben Sample (A-2)'});
  await send('/certificates');
  await page.locator('#course-error').waitFor();
  await look('certificate-wrong');
  await page.locator('#kind-2').check();
  await page.locator('#day').fill('2026-01-05');
  await send('/certificates');
  await page.locator('.told').waitFor();
  const certificate = path();
  await look('certificate');
  await go(`/certificates/of-session/${session.split('/').pop()}`);
  await look('certificates-to-print');
  const pdf = join(temporaryFolder(), 'certificates.pdf');
  await printToPdf(page, pdf);
  const sheets = pageTexts(pdf);
  assert.equal(sheets.length, 2);
  assert.match(sheets.join(), /Ana Ejemplo/);
  assert.match(sheets.join(), /Theo Trainer/);
  assert.match(sheets.join(), language === 'es' ? /Protección contra caídas/ : /Fall protection/);

  // Who is due by the end of next year, and for a calendar.
  await go(`/due?on=${afterTheInterval()}`);
  await page.locator('main').getByText('Ana Ejemplo').waitFor();
  await look('due');
  const calendar = readFileSync(
      await save(await page.locator('main a[href^="/due/calendar"]').getAttribute('href')), 'utf8');
  assert.match(calendar, /^BEGIN:VCALENDAR\r\n/);
  assert.match(calendar, /Ana Ejemplo/);

  // Somebody was not there after all; the history of the person keeps it.
  await go(session);
  await page.locator('#who + ul a', {hasText: 'Ana Ejemplo'}).click();
  const attendance = path();
  await look('attendance');
  await page.locator('#remark').fill('was ill');
  await send(`${attendance}/strike`);
  await page.locator('.told').waitFor();
  assert.equal(await page.locator('#who + ul li').count(), 2);
  await look('session-corrected');
  await go(`/people/${attendance.split('/').pop()}`);
  await page.locator('#history').waitFor();
  await look('history');
  await go(certificate);
  await page.locator('summary').click();
  await look('certificate-to-strike');
  await send(`${certificate}/strike`);
  await page.locator('.told').waitFor();
  await look('certificates');

  // The store: sound, and copies of it.
  await go('/records');
  const state = await page.locator('.place').first().innerText();
  await page.locator('#head').fill('12');
  await send('/records/verify');
  await page.locator('#head-error').waitFor();
  await look('records-wrong');
  await page.locator('#head').fill(state);
  await send('/records/verify');
  await page.locator('#check ~ .told').waitFor();
  await look('records-sound');
  await page.locator('#head').fill(state.slice(0, -1) + (state.endsWith('0') ? '1' : '0'));
  await send('/records/verify');
  await page.locator('#check ~ .wrong').waitFor();
  await look('records-bad');
  for (const what of ['backup', 'tables', 'json']) await send(`/records/make/${what}`);
  await look('records');
  const copy = join(temporaryFolder(), 'copy.db');
  writeFileSync(copy, readFileSync(await save('/records/save/backup')));
  assert.ok(footroom('record', 'verify', '--store', copy).includes(state));
  for (const what of ['tables', 'json'])
    assert.equal(readFileSync(await save(`/records/save/${what}`)).subarray(0, 2).toString(), 'PK');
}

for (const run of deskRuns) {
  test(`an employer's month ${run.name}`, async () => {
    const desk = await startDesk();
    const visit = await visitDesk(browser, desk, run);
    await walkMonth(visit.page, desk, run.language, visit.look);
    assert.deepEqual(visit.faults, []);
    assert.deepEqual(visit.complaints, []);
    await visit.close();
    await desk.close();
  });
}
