// The calculations and the practice page at the desk, as someone with a browser uses them.

import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {after, before, test} from 'node:test';
import {desktop, keepPicture, phone, sidewaysOverflow, startBrowser} from './support/browser.js';
import {deskRuns, startDesk, tabTo, visitDesk} from './support/desk.js';
import {fillIn, handIn, keyboardHand, openQuestionOf, rightAnswer, untilShown} from './support/practice.js';

let browser;
let desk;
before(async () => {
  browser = await startBrowser();
  desk = await startDesk();
});
after(() => browser.close());

const at = path => new URL(path, desk.address).href;

/** A window at the desk. */
async function openDesk(run) {
  const visit = await visitDesk(
      browser, desk, {size: desktop, language: 'en', colorScheme: 'light', script: true, ...run});
  await visit.page.goto(desk.address);
  return visit;
}

async function choose(page, language, units) {
  await page.goto(at('/preferences'));
  await page.locator(`input[name="language"][value="${language}"]`).check();
  await page.locator(`input[name="units"][value="${units}"]`).check();
  await page.locator('main button[type="submit"]').click();
  await page.locator('.told').waitFor();
}

/** Drawings that stick out of the window and are not scrolled within their own frame. */
const outside = page => page.evaluate(() => [...document.querySelectorAll('svg[role="img"]')]
    .filter(drawing => drawing.getBoundingClientRect().right > innerWidth + 0.5)
    .map(drawing => drawing.querySelector('title').textContent));

// Every kind of page; each calculation is looked at without axe below.
const pages = {
  list: '/calculations',
  short: '/calculations/edge-fall?slope-length=5+m&pitch=27°&d-ring-height=1.5+m&slack=1.2+m' +
      '&plot-input=slack&plot-output=free-fall&plot-from=&plot-to=#plot',
  long: '/calculations/gear-check',
  formulas: '/calculations/nail-lateral',
  history: '/calculations/arrest-in-time',
  words: '/calculations/rope-passes',
  wrong: '/calculations/edge-fall?slope-length=5+kg&pitch=27°&d-ring-height=&slack=-1',
  slack: '/calculations/clearance-against-slack',
  practice: '/practice/hand-out',
};

for (const run of deskRuns) {
  test(`every kind of page ${run.name}`, async () => {
    const {page, look, faults, complaints, close} = await openDesk(run);
    await choose(page, run.language, run.language === 'es' ? 'si' : 'us');
    for (const [kind, path] of Object.entries(pages)) {
      await page.goto(at(path));
      await look(`calculation-${kind}`);
    }
    assert.deepEqual(faults, []);
    assert.deepEqual(complaints, []);
    await close();
  });
}

test('no calculation is wider than a phone, drawn or plotted', async () => {
  const {page, complaints, close} = await openDesk({size: phone});
  const faults = [];
  for (const language of ['en', 'es']) {
    await choose(page, language, language === 'en' ? 'us' : 'si');
    await page.goto(at('/calculations'));
    const links = await page.locator('.entries a').evaluateAll(all => all.map(link => link.href));
    assert.ok(links.length > 40);
    for (const link of links) {
      await page.goto(link);
      const draw = page.locator('#plot button');
      if (await draw.count() > 0) {
        await draw.click();
        await page.locator('#plot svg').waitFor();
        await page.waitForLoadState();
      }
      const over = await sidewaysOverflow(page);
      if (over > 0) faults.push(`${link}: ${over} pixels`);
      for (const drawing of await outside(page)) faults.push(`${link}: ${drawing}`);
    }
  }
  assert.deepEqual(faults, []);
  assert.deepEqual(complaints, []);
  await close();
});

test('by keyboard alone: a value is changed, its reading told, the result found', async () => {
  const {page, close} = await openDesk();
  await choose(page, 'en', 'us');
  await page.goto(at('/calculations'));
  await tabTo(page, 'a[href="/calculations/edge-fall"]');
  await page.keyboard.press('Enter');
  await page.waitForURL(/edge-fall$/);
  await tabTo(page, '#slack');
  await page.keyboard.press('Control+A');
  await page.keyboard.type("4'");
  await page.getByText('is read as 4 ft').waitFor();
  await page.keyboard.press('Enter');
  await page.waitForURL(/slack=4%27.*#results$/);
  // README.md works this example: 7.47 ft.
  await page.locator('.results li').filter({hasText: 'free fall'}).getByText('7.5 ft').waitFor();
  await page.getByText('beyond the limit').waitFor();
  await close();
});

test('what is wrong stands beside its field, and comes first', async () => {
  const {page, close} = await openDesk();
  await choose(page, 'es', 'si');
  await page.goto(at('/calculations/edge-fall'));
  await page.locator('#slack').fill('-1');
  await page.locator('.calculation button').click();
  await page.locator('#slack-error').waitFor();
  assert.match(await page.locator('#slack-error').innerText(), /es -1 m; se espera 0 m a 30 m/);
  assert.equal(await page.locator('#slack').getAttribute('aria-invalid'), 'true');
  assert.equal(await page.locator('#results').count(), 0);
  await page.locator('.wrong a').click();
  assert.equal(await page.evaluate(() => document.activeElement.id), 'slack');
  await close();
});

test('a question of the practice page is answered at the desk', async () => {
  const {page, complaints, close} = await openDesk({size: phone});
  await choose(page, 'en', 'us');
  await page.goto(at('/'));
  await page.getByRole('link', {name: 'the practice page'}).click();
  const opened = page.context().waitForEvent('page');
  await page.getByRole('link', {name: 'Practise here'}).click();
  const practice = await opened;
  practice.on('console', message => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  practice.on('pageerror', error => complaints.push(error.message));
  await untilShown(practice);
  const question = await openQuestionOf(practice, {kind: 'number'});
  const hand = keyboardHand(practice);
  await fillIn(practice, hand, question, await rightAnswer(practice, question));
  const {mark} = await handIn(practice, hand);
  assert.equal(mark, 'right');
  await keepPicture(practice, 'desk-practice');
  assert.deepEqual(complaints, []);
  await close();
});

test('the practice page is saved as a file, for the course of the preferences', async () => {
  const {page, close} = await openDesk();
  await page.goto(at('/preferences'));
  await page.locator('#course').selectOption('twelve-weeks');
  await page.locator('main button[type="submit"]').click();
  await page.locator('.told').waitFor();
  await page.goto(at('/practice/hand-out'));
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('a[href="/practice/file"]').click(),
  ]);
  assert.equal(download.suggestedFilename(), 'practice.html');
  const text = readFileSync(await download.path(), 'utf8');
  assert.match(text, /^<!DOCTYPE html>/);
  assert.match(text, /Content-Security-Policy/);
  await close();
});
