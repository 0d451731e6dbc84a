// Every page, as people with other eyes, ears and hands meet it.

import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';
import {accessibilityFaults, keepPicture, keyboardWalk, openPage, phone, sidewaysOverflow,
        startBrowser} from './support/browser.js';
import {everyEdition, temporaryFolder} from './support/footroom.js';
import {makeEveryPage} from './support/pages.js';

/** The pages that are no collection of others. */
const alone = ['sheet', 'key', 'term-test-sheet', 'term-test-key', 'feedback', 'class-report',
               'statistics', 'certificate', 'person-record', 'manual'];
/** The rules of axe whose outcome may change with the size of the window. */
const rulesOfSize = ['target-size', 'scrollable-region-focusable', 'color-contrast'];

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

/** Levels of the headings in their order; a heading may be one level below the last at most. */
async function headingFaults(page) {
  const headings = await page.$$eval('h1, h2, h3, h4, h5, h6', all => all.map(
      heading => ({level: Number(heading.localName[1]), text: heading.textContent.trim()})));
  const faults = [];
  let last = 0;
  for (const {level, text} of headings) {
    if (level > last + 1) {
      faults.push(`h${level} "${text}" after h${last}`);
    }
    if (!text) {
      faults.push(`an empty h${level}`);
    }
    last = level;
  }
  return headings.length ? faults : ['no heading'];
}

/** What is drawn, and what a screen reader is told of it. */
async function drawingFaults(page) {
  return page.evaluate(() => {
    const faults = [];
    const textOf = ids => (ids ?? '').split(' ').map(
        id => document.getElementById(id)?.textContent ?? '').join(' ').trim();
    for (const svg of document.querySelectorAll('svg')) {
      if (svg.getAttribute('aria-hidden') === 'true') {
        continue;
      }
      const name = svg.getAttribute('aria-label') ?? textOf(svg.getAttribute('aria-labelledby'));
      if (svg.getAttribute('role') !== 'img' || !name) {
        faults.push(`a drawing without role or name: ${svg.outerHTML.slice(0, 120)}`);
      }
      if (svg.closest('.figure') && textOf(svg.getAttribute('aria-describedby')).length < 20) {
        faults.push(`${name}: hardly a description`);
      }
    }
    for (const math of document.querySelectorAll('math')) {
      if (!math.textContent.trim()) {
        faults.push('a formula without text');
      }
    }
    return faults;
  });
}

/** The contrast of text in drawings, which axe leaves out: the text's colour on its own halo. */
async function drawingContrast(page) {
  return page.evaluate(() => {
    const luminance = colour => {
      const [r, g, b] = colour.match(/[\d.]+/g).slice(0, 3).map(Number).map(
          value => value / 255 <= 0.04045 ? value / 255 / 12.92
                                          : ((value / 255 + 0.055) / 1.055) ** 2.4);
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    let lowest = 21;
    for (const text of document.querySelectorAll('.figure svg text')) {
      const {fill, stroke, paintOrder, strokeWidth, visibility} = getComputedStyle(text);
      const halo = paintOrder.startsWith('stroke') && parseFloat(strokeWidth) > 0;
      const behind = halo ? stroke : 'rgb(128, 128, 128)';
      const [dark, light] = [luminance(fill), luminance(behind)].sort((a, b) => a - b);
      lowest = Math.min(lowest, visibility === 'visible' ? (light + 0.05) / (dark + 0.05) : 0);
    }
    return lowest;
  });
}

async function expectKeyboardInOrder(page) {
  const inDocument = await page.$$eval('a[href], [tabindex]', all => all.map(element => {
    const text = (element.getAttribute('aria-label') ?? element.textContent).trim().slice(0, 80);
    return `${element.localName} ${text}`;
  }));
  const walked = await keyboardWalk(page);
  assert.deepEqual(walked.map(({name, text}) => `${name} ${text}`), inDocument);
  assert.deepEqual(walked.filter(({visible}) => !visible), [], 'the focus is out of sight');
  const lost = await page.$$eval('a[href^="#"]', links => links.map(link => link.hash.slice(1))
      .filter(id => !document.getElementById(id)));
  assert.deepEqual(lost, [], 'links that lead nowhere');
}

/** Elements that scroll sideways and do not take the focus, and those whose content is cut. */
async function badBoxes(page) {
  return page.evaluate(() => [...document.querySelectorAll('main *')].filter(element => {
    const {overflowX, display} = getComputedStyle(element);
    if (element.closest('svg, math') || display === 'inline' ||
        element.scrollWidth <= element.clientWidth + 1) {
      return false;
    }
    if (overflowX === 'hidden' || overflowX === 'clip') {
      return true;
    }
    return ['auto', 'scroll'].includes(overflowX) && element.tabIndex < 0;
  }).map(element => element.outerHTML.slice(0, 120)));
}

/** Opens a page on a small phone: nothing but boxes that take the focus scrolls sideways. */
async function expectGoodOnAPhone(file, picture) {
  const {page, complaints, close} = await openPage(browser, file, {size: phone});
  assert.equal(await sidewaysOverflow(page), 0, 'needs sideways scrolling');
  assert.deepEqual(await badBoxes(page), []);
  assert.deepEqual(complaints, []);
  await keepPicture(page, `${picture}-phone`);
  return {page, close};
}

for (const edition of everyEdition) {
  const pictures = `${edition.language}-${edition.units}`;
  test(`pages in ${edition.language}, ${edition.units}, on a phone`, async context => {
    const pages = makeEveryPage(temporaryFolder(), edition);
    for (const name of alone) {
      await context.test(name, async () => {
        const {page, close} = await expectGoodOnAPhone(pages[name], `${pictures}-${name}`);
        assert.deepEqual(await accessibilityFaults(page, rulesOfSize), []);
        await close();
      });
    }
  });
}

// Units change numbers, not the make of a page.
for (const edition of [{language: 'en', units: 'us'}, {language: 'es', units: 'si'}]) {
  test(`pages in ${edition.language}, ${edition.units}`, async context => {
    const pages = makeEveryPage(temporaryFolder(), edition);
    for (const [name, file] of Object.entries(pages)) {
      await context.test(name, async () => {
        const {page, complaints, requests, close} = await openPage(browser, file);
        assert.deepEqual(await accessibilityFaults(page), []);
        assert.equal(await page.evaluate(() => document.documentElement.lang), edition.language);
        assert.equal(await page.locator('main').count(), 1);
        assert.deepEqual(await headingFaults(page), []);
        assert.deepEqual(await drawingFaults(page), []);
        await keepPicture(page, `${edition.language}-${name}-light`);
        await page.emulateMedia({colorScheme: 'dark'});
        assert.deepEqual(await accessibilityFaults(page, ['color-contrast']), [], 'dark');
        assert.ok(await drawingContrast(page) >= 4.5, 'text in drawings');
        await keepPicture(page, `${edition.language}-${name}-dark`);
        await expectKeyboardInOrder(page);
        assert.deepEqual(complaints, []);
        assert.deepEqual(requests, []);
        await close();
      });
    }
  });
}
