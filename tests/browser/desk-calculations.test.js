// The calculations and the practice page at the desk, as someone with a browser uses them.

import assert from 'node:assert/strict';
import {spawn} from 'node:child_process';
import {once} from 'node:events';
import {readFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {accessibilityFaults, desktop, keepPicture, phone, sidewaysOverflow, startBrowser} from './support/browser.js';
import {program, temporaryFolder} from './support/footroom.js';
import {fillIn, handIn, keyboardHand, openQuestionOf, rightAnswer, untilShown} from './support/practice.js';

const patience = 120_000;

let browser;
let desk;
let address;
before(async () => {
  browser = await startBrowser();
  desk = spawn(program, ['desk', '--no-open', '--folder', join(temporaryFolder(), 'desk')],
               {stdio: ['ignore', 'pipe', 'inherit']});
  const [said] = await once(desk.stdout, 'data');
  address = String(said).trim();
});
after(async () => {
  await browser.close();
  desk.kill('SIGTERM');
});

const at = path => new URL(path, address).href;

/** A window at the desk that keeps what the browser complains of. */
async function openDesk({size = desktop, colorScheme = 'light', script = true} = {}) {
  const context = await browser.newContext(
      {viewport: size, colorScheme, javaScriptEnabled: script, acceptDownloads: true});
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  const complaints = [];
  const watch = window => {
    window.on('console', message => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    window.on('pageerror', error => complaints.push(error.message));
  };
  watch(page);
  context.on('page', watch);
  await page.goto(address);
  return {context, page, complaints};
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

const editions = [
  {language: 'en', units: 'us', size: desktop, colorScheme: 'light', script: true},
  {language: 'es', units: 'si', size: phone, colorScheme: 'dark', script: true},
  {language: 'en', units: 'us', size: phone, colorScheme: 'light', script: false},
];
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

for (const edition of editions) {
  const name = `${edition.language}-${edition.units}-${edition.size.width}-${edition.colorScheme}` +
      (edition.script ? '' : '-no-script');
  test(`every kind of page: ${name}`, async () => {
    const {context, page, complaints} = await openDesk(edition);
    await choose(page, edition.language, edition.units);
    const faults = [];
    for (const [kind, path] of Object.entries(pages)) {
      await page.goto(at(path));
      await keepPicture(page, `desk-calculation-${kind}-${name}`);
      if (edition.script)
        for (const fault of await accessibilityFaults(page)) faults.push(`${kind}: ${fault}`);
      const over = await sidewaysOverflow(page);
      if (over > 0) faults.push(`${kind}: ${over} pixels wider than the window`);
    }
    assert.deepEqual(faults, []);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}

test('no calculation is wider than a phone, drawn or plotted', async () => {
  const {context, page, complaints} = await openDesk({size: phone});
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
  await context.close();
});

test('by keyboard alone: a value is changed, its reading told, the result found', async () => {
  const {context, page} = await openDesk();
  await choose(page, 'en', 'us');
  const to = async selector => {
    for (let step = 0; step < 300; ++step) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(wanted => document.activeElement?.matches(wanted), selector)) return;
    }
    throw new Error(`the keyboard does not reach ${selector}`);
  };
  await page.goto(at('/calculations'));
  await to('a[href="/calculations/edge-fall"]');
  await page.keyboard.press('Enter');
  await page.waitForURL(/edge-fall$/);
  await to('#slack');
  await page.keyboard.press('Control+A');
  await page.keyboard.type("4'");
  await page.getByText('is read as 4 ft').waitFor();
  await page.keyboard.press('Enter');
  await page.waitForURL(/slack=4%27.*#results$/);
  // README.md works this example: 7.47 ft.
  await page.locator('.results li').filter({hasText: 'free fall'}).getByText('7.5 ft').waitFor();
  await page.getByText('beyond the limit').waitFor();
  await context.close();
});

test('what is wrong stands beside its field, and comes first', async () => {
  const {context, page} = await openDesk();
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
  await context.close();
});

test('a question of the practice page is answered at the desk', async () => {
  const {context, page, complaints} = await openDesk({size: phone});
  await choose(page, 'en', 'us');
  await page.goto(at('/'));
  await page.getByRole('link', {name: 'the practice page'}).click();
  const opened = context.waitForEvent('page');
  await page.getByRole('link', {name: 'Practise here'}).click();
  const practice = await opened;
  await untilShown(practice);
  const question = await openQuestionOf(practice, {kind: 'number'});
  const hand = keyboardHand(practice);
  await fillIn(practice, hand, question, await rightAnswer(practice, question));
  const {mark} = await handIn(practice, hand);
  assert.equal(mark, 'right');
  await keepPicture(practice, 'desk-practice');
  assert.deepEqual(complaints, []);
  await context.close();
});

test('the practice page is saved as a file, for the course of the preferences', async () => {
  const {context, page} = await openDesk();
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
  await context.close();
});
