import {spawn} from 'node:child_process';
import {once} from 'node:events';
import {join} from 'node:path';
import {after} from 'node:test';
import {accessibilityFaults, desktop, keepPicture, phone, sidewaysOverflow} from './browser.js';
import {program, temporaryFolder} from './footroom.js';

const patience = 60_000;

const desks = [];
after(() => desks.forEach(desk => desk.kill('SIGKILL')));  // those of tests that failed

/** A desk on an empty folder, or on the one that is given: {address, folder, close}. */
export async function startDesk(folder = join(temporaryFolder(), 'desk')) {
  const desk = spawn(program, ['desk', '--no-open', '--folder', folder],
                     {stdio: ['ignore', 'pipe', 'inherit']});
  desks.push(desk);
  const [said] = await once(desk.stdout, 'data');
  return {
    address: String(said).trim(),
    folder,
    close: async () => { desk.kill('SIGTERM'); await once(desk, 'exit'); },
  };
}

/** How the rooms are walked: each language, size, colour scheme, with and without scripts. */
export const deskRuns = [
  {name: 'in English on a desktop', language: 'en', size: desktop, colorScheme: 'light', script: true},
  {name: 'in Spanish on a phone in the dark', language: 'es', size: phone, colorScheme: 'dark', script: true},
  {name: 'in English on a phone without scripts', language: 'en', size: phone, colorScheme: 'light', script: false},
];

/**
 * A window on the desk: {page, look, faults, complaints, close}.
 *
 * look(name) judges the page that is open: what axe finds and what is wider than the window goes to
 * faults. complaints: what the browser found wrong, and what the page asked for elsewhere.
 */
export async function visitDesk(browser, desk, run) {
  const context = await browser.newContext({
    viewport: run.size, colorScheme: run.colorScheme, javaScriptEnabled: run.script,
  });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  const complaints = [];
  page.on('console', message => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', error => complaints.push(error.message));
  const origin = new URL(desk.address).origin;
  page.on('request', request => {
    if (new URL(request.url()).origin !== origin) complaints.push(`asked for ${request.url()}`);
  });
  const faults = [];
  const look = async name => {
    await page.waitForLoadState();
    await keepPicture(page, `desk-${name}-${run.language}-${run.size.width}-${run.colorScheme}`);
    // axe waits for timers, which do not run where scripts are off.
    if (run.script)
      for (const fault of await accessibilityFaults(page)) faults.push(`${name}: ${fault}`);
    const over = await sidewaysOverflow(page);
    if (over > 0) faults.push(`${name}: ${over} pixels wider than the window`);
  };
  return {page, look, faults, complaints, close: () => context.close()};
}

/** Chooses Spanish in the preferences. */
export async function chooseSpanish(page, address) {
  await page.goto(new URL('/preferences', address).href);
  await page.getByLabel('Español').check();
  await page.getByRole('button', {name: 'Save the preferences', exact: true}).click();
  await page.getByRole('status').waitFor();
}

/** Presses Tab until the focus is on what `selector` names. */
export async function tabTo(page, selector) {
  for (let step = 0; step < 200; ++step) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(wanted => document.activeElement?.matches(wanted), selector)) return;
  }
  throw new Error(`the keyboard does not reach ${selector}`);
}
