import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import {join} from 'node:path';
import {pathToFileURL} from 'node:url';
import {chromium} from 'playwright-core';
import {temporaryFolder} from './footroom.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** In milliseconds; long, for a busy machine: no test asks how fast anything is. */
const patience = 300_000;

/** Sizes that pages are looked at in: a small phone, and a desktop screen. */
export const phone = {width: 320, height: 640};
export const desktop = {width: 1280, height: 900};

/** Starts Debian's Chromium, or the one that FOOTROOM_CHROMIUM names. Close it with close(). */
export async function startBrowser() {
  return chromium.launch({
    executablePath: process.env.FOOTROOM_CHROMIUM ?? '/usr/bin/chromium',
    chromiumSandbox: false,
    timeout: patience,
    env: {...process.env, HOME: temporaryFolder()},
    args: ['--disable-gpu', '--disable-background-networking', '--disable-component-update',
           '--disable-sync', '--disable-breakpad', '--no-first-run'],
  });
}

/**
 * Opens a file in a window of its own and returns {page, complaints, requests, close}.
 *
 * complaints: what the browser found wrong, as it comes in: errors and warnings of the console
 * (violations of the content security policy among them) and exceptions of scripts.
 * requests: every address that the page asked for, the page itself left out.
 */
export async function openPage(
    browser, file, {size = desktop, colorScheme = 'light', beforehand, ...further} = {}) {
  const context = await browser.newContext(
      {viewport: size, colorScheme, offline: true, ...further});
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  if (beforehand) {
    await page.addInitScript(beforehand);
  }
  const address = pathToFileURL(file).href;
  const complaints = [];
  const requests = [];
  page.on('console', message => {
    if (['error', 'warning'].includes(message.type())) {
      complaints.push(`${message.type()}: ${message.text()}`);
    }
  });
  page.on('pageerror', error => complaints.push(`exception: ${error.message}`));
  page.on('request', request => {
    if (request.url().split('#')[0] !== address) {
      requests.push(request.url());
    }
  });
  await page.goto(address);
  return {page, complaints, requests, close: () => context.close()};
}

/**
 * What axe finds against WCAG 2.2, levels A and AA: one line a place. With `rules` only against
 * these rules of axe.
 */
export async function accessibilityFaults(page, rules) {
  await page.evaluate(axe);
  const levels = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
  const found = await page.evaluate(runOnly => window.axe.run(document, {
    runOnly,
    resultTypes: ['violations'],
  }), rules ? {type: 'rule', values: rules} : {type: 'tag', values: levels});
  return found.violations.flatMap(rule => rule.nodes.map(
      node => `${rule.id} (${rule.help}) at ${node.target}: ${node.html.slice(0, 160)}`));
}

/** How far the page is wider than its window, in pixels: 0 where nothing needs sideways scrolling. */
export async function sidewaysOverflow(page) {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}

/**
 * Presses Tab from the top of the page until the focus leaves it, and returns the elements that got
 * it, in order, each as {name, text, id, visible}: tag, what it says, its id, and whether it stands
 * in the window where a user sees it.
 */
export async function keyboardWalk(page, limit = 500) {
  const walked = [];
  for (let step = 0; step < limit; ++step) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate(() => {
      const element = document.activeElement;
      if (!element || element === document.body) {
        return null;
      }
      const box = element.getBoundingClientRect();
      const first = !element.dataset.walked;
      element.dataset.walked = 'yes';
      return {
        first,
        name: element.localName,
        text: (element.getAttribute('aria-label') ?? element.textContent).trim().slice(0, 80),
        id: element.id,
        visible: box.width > 0 && box.height > 0 && box.bottom > 0 && box.top < window.innerHeight,
      };
    });
    if (!focused?.first) {
      return walked;
    }
    delete focused.first;
    walked.push(focused);
  }
  throw new Error(`more than ${limit} elements take the focus`);
}

/** Prints a page as a browser's user would, without margins or heads of the browser. */
export async function printToPdf(page, file) {
  await page.pdf({path: file, preferCSSPageSize: true, printBackground: true});
}

/** Keeps a picture of the whole page in the folder that FOOTROOM_PICTURES names, if it does. */
export async function keepPicture(page, name) {
  if (process.env.FOOTROOM_PICTURES) {
    await page.screenshot({path: join(process.env.FOOTROOM_PICTURES, `${name}.png`), fullPage: true});
  }
}
