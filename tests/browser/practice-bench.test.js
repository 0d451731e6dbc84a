// The bench of the practice page: sliders by keys and by touch, typed numbers, limits marked in
// words, and numbers that agree with the program's own.

import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';
import {desktop, startBrowser} from './support/browser.js';
import {footroom, temporaryFolder} from './support/footroom.js';
import {inHand, keyboardHand, makePractice, openPractice} from './support/practice.js';

let browser;
let file;
before(async () => {
  file = makePractice(temporaryFolder());
  browser = await startBrowser();
});
after(() => browser.close());

async function openBench(options) {
  const opened = await openPractice(browser, file, options);
  await opened.page.locator('a[href="#bench"]').click();
  await opened.page.locator('#control-slack').waitFor();
  return opened;
}

const slider = (page, id) => page.locator(`#control-${id}`);

/** Types a value beside a slider and waits until everything follows. */
async function type(page, id, text) {
  const field = page.locator(`#control-${id}-typed`);
  await field.fill(text);
  await field.press('Tab');
  await nextFrame(page);
}

async function nextFrame(page) {
  await page.evaluate(() => new Promise(resolve => {
    requestAnimationFrame(() => requestAnimationFrame(resolve));
  }));
}

/** The results as the page shows them, by name. */
async function outputs(page) {
  return Object.fromEntries(await page.locator('#outputs > div').evaluateAll(
      all => all.map(one => [one.querySelector('dt').textContent,
                             one.querySelector('strong').textContent])));
}

async function limits(page) {
  return page.locator('#limit-list > li').evaluateAll(all => all.map(one => ({
    name: one.querySelector('strong').textContent,
    broken: one.classList.contains('wrong'),
    sign: one.querySelector('.sign').textContent,
    text: one.textContent,
  })));
}

/** With ordinary spaces: between a number and its unit stands one that does not break. */
const spaced = text => text.replace(/\s/g, ' ');
const number = text => Number(text.match(/-?\d+(?:\.\d+)?/)[0]);

test('the fall on the bench is the one that the program works out', async () => {
  const opened = await openBench({size: desktop, locale: 'en-US'});
  const {page} = opened;
  for (const slack of ['2', '4', '7.5']) {
    for (const [pitch, length] of [['6', '16'], ['12', '24']]) {
      await type(page, 'slack', slack);
      await type(page, 'pitch', pitch);
      await type(page, 'slope-length', length);
      const calculated = JSON.parse(footroom(
          'calc', 'edge-fall', `slope-length=${length} ft`, `pitch=${pitch}:12`,
          'd-ring-height=5 ft', `slack=${slack} ft`, '--json')).outputs;
      const shown = Object.values(await outputs(page)).map(spaced);
      for (const name of ['taut-line', 'line-out', 'free-fall']) {
        assert(shown.includes(spaced(calculated[name].text)),
               `${name} ${calculated[name].text} with ${slack}, ${pitch}, ${length}: ${shown}`);
      }
    }
  }
  assert.deepEqual(opened.complaints, []);
  await opened.close();
});

test('by keys alone: a slider moves, a limit breaks, and it is told in words', async () => {
  const opened = await openBench({size: desktop, locale: 'en-US'});
  const {page} = opened;
  const hand = keyboardHand(page);
  await hand.write(page.locator('#control-slack-typed'), '0');
  await page.keyboard.press('Tab');
  await nextFrame(page);
  assert.equal(await slider(page, 'slack').evaluate(one => one === document.activeElement), true);
  assert.match(await slider(page, 'slack').getAttribute('aria-valuetext'), /^0\sft$/);
  const before = await limits(page);
  const drawn = await page.locator('#bench-scenes svg').innerHTML();

  await page.keyboard.press('End');
  await nextFrame(page);
  assert.match(await slider(page, 'slack').getAttribute('aria-valuetext'), /^12\sft$/);
  const after = await limits(page);
  const brokenBefore = before.filter(limit => limit.broken).map(limit => limit.name);
  const newly = after.filter(limit => limit.broken && !brokenBefore.includes(limit.name));
  assert(newly.length > 0, 'twelve feet of slack break a limit that none keeps');
  const freeFall = after.find(limit => /1926\.502\(d\)\(16\)\(iii\)/.test(limit.text));
  assert(freeFall?.broken, JSON.stringify(after));
  for (const {broken, sign, text} of after) {
    assert.equal(sign, broken ? '✗' : '✓');
    assert.match(text, broken ? /broken/ : /kept/);
  }
  const marked = await page.locator('#broken-limits').innerText();
  for (const {name} of after.filter(limit => limit.broken)) assert(marked.includes(name), marked);
  assert.notEqual(await page.locator('#bench-scenes svg').innerHTML(), drawn);
  await page.locator('#bench-news', {hasText: newly[0].name}).waitFor({state: 'attached'});
  await page.keyboard.press('ArrowLeft');
  await nextFrame(page);
  assert.match(await slider(page, 'slack').getAttribute('aria-valuetext'), /^11\.75\sft$/);
  assert.deepEqual(opened.complaints, []);
  await opened.close();
});

test('the parts of the clearance add up to what is needed', async () => {
  const opened = await openBench({size: desktop, locale: 'en-US'});
  const {page} = opened;
  for (const [id, text] of [['slack', '3'], ['offset', '6'], ['mass', '300']]) {
    await type(page, id, text);
    const parts = await page.locator('#stack-table tbody tr td').allTextContents();
    const [needed] = parts.splice(-2).map(number);
    const sum = parts.map(number).reduce((one, other) => one + other, 0);
    assert(parts.length >= 5 && Math.abs(sum - needed) <= 0.06 * parts.length,
           `${parts} give ${sum}, not ${needed}`);
  }
  await opened.close();
});

test('what is typed is taken with a point or a comma, and refused outside the slider', async () => {
  const opened = await openBench(inHand('es'));
  const {page} = opened;
  await type(page, 'slack', '2,5');
  assert.equal(await slider(page, 'slack').inputValue(), '2.5');
  for (const text of ['-1', '99', 'rope', '']) {
    await type(page, 'slack', text);
    assert.notEqual(await page.locator('#control-slack-problem').textContent(), '', text);
    assert.equal(await page.locator('#control-slack-typed').getAttribute('aria-invalid'), 'true');
    assert.equal(await slider(page, 'slack').inputValue(), '2.5');
  }
  await type(page, 'slack', '3.5');
  assert.equal(await page.locator('#control-slack-problem').textContent(), '');
  assert.equal(await slider(page, 'slack').inputValue(), '3.5');
  await opened.close();
});

test('by touch: a slider follows the finger, with the drawing in sight', async () => {
  const opened = await openBench(inHand('en'));
  const {page} = opened;
  const last = slider(page, 'mass');
  await last.scrollIntoViewIfNeeded();
  const before = Number(await last.inputValue());
  const box = await last.boundingBox();
  await page.touchscreen.tap(box.x + box.width - 12, box.y + box.height / 2);
  await nextFrame(page);
  assert(Number(await last.inputValue()) > before);
  const drawing = await page.locator('#bench-scenes svg').boundingBox();
  assert(drawing.y >= 0 && drawing.y + drawing.height <= 640, JSON.stringify(drawing));
  assert.deepEqual(opened.complaints, []);
  await opened.close();
});

test('language and units keep what the sliders say', async () => {
  const opened = await openBench({size: desktop, locale: 'en-US'});
  const {page} = opened;
  await type(page, 'slack', '6');
  await page.locator('#languages button').click();
  assert.equal(await slider(page, 'slack').inputValue(), '6');
  await page.locator('a[href="#practice"]').click();
  await page.locator('input[name=units][value=si]').click();
  await page.locator('a[href="#bench"]').click();
  await page.locator('#trying:visible').waitFor();
  assert.match(await slider(page, 'slack').getAttribute('aria-valuetext'), /^1\.85\sm$/);
  await page.locator('#bench-start').click();
  assert.notEqual(await slider(page, 'slack').inputValue(), '1.85');
  assert.deepEqual(opened.complaints, []);
  assert.deepEqual(opened.requests.filter(address => !address.startsWith('data:')), []);
  await opened.close();
});
