// Every state of the practice page: for axe, by width, for a thumb, in both languages, light and
// dark.

import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';
import {desktop, keepPicture, phone, startBrowser} from './support/browser.js';
import {temporaryFolder} from './support/footroom.js';
import {faults, fillIn, handIn, makePractice, openEverything, openPractice, openQuestionOf,
        rightAnswer, wrongAnswer} from './support/practice.js';

let browser;
let file;
before(async () => {
  file = makePractice(temporaryFolder());
  browser = await startBrowser();
});
after(() => browser.close());

const mouse = {
  press: locator => locator.click(),
  write: (locator, text) => locator.fill(text),
  check: locator => locator.click(),
};

/** Kinds of question, and whether they are answered rightly here. */
const kinds = {
  'number': false,
  'one-of': true,
  'several-of': false,
  'order': false,
  'verdict': false,
};
const looks = [
  {language: 'en', colorScheme: 'light', size: phone},
  {language: 'es', colorScheme: 'dark', size: phone},
  {language: 'en', colorScheme: 'dark', size: desktop},
  {language: 'es', colorScheme: 'light', size: desktop},
];

for (const {language, colorScheme, size} of looks) {
  const look = `${language}-${colorScheme}-${size.width}`;
  test(`no state of the page has a fault: ${look}`, async () => {
    const opened = await openPractice(
        browser, file, {size, colorScheme, locale: `${language}-US`, hasTouch: size === phone});
    const {page} = opened;
    const check = async state => {
      await keepPicture(page, `practice-${look}-${state}`);
      assert.deepEqual(await faults(page), [], state);
    };
    await check('choice');
    await page.locator('#no-topics').click();
    await page.locator('#start').click();
    await check('nothing-chosen');
    await page.locator('#all-topics').click();
    await page.locator('#start').click();
    await page.locator('#answer-form:visible').waitFor();

    for (const [kind, right] of Object.entries(kinds)) {
      const question = await openQuestionOf(page, {kind, leastSteps: kind === 'number' ? 2 : 0});
      await check(kind);
      if (kind === 'number') {
        await page.locator('#answer').fill('about a rope');
        await page.locator('#answer-buttons button').click();
        await check('unreadable');
      }
      const answer = right ? await rightAnswer(page, question) :
                             (await wrongAnswer(page, question)).answer;
      await fillIn(page, mouse, question, answer);
      await handIn(page, mouse);
      await check(`${kind}-${right ? 'right' : 'wrong'}`);
      await openEverything(page);
      await check(`${kind}-all`);
    }

    await page.locator('a[href="#progress"]').click();
    await check('progress');
    await page.locator('#forget').click();
    await check('forget');
    await page.locator('a[href="#bench"]').click();
    await page.locator('#control-list .control').first().waitFor();
    await check('bench');
    assert.deepEqual(opened.complaints, []);
    await opened.close();
  });
}

test('a drawing keeps its contrast on a dark page', async () => {
  for (const colorScheme of ['light', 'dark']) {
    const opened = await openPractice(browser, file, {size: phone, colorScheme});
    const {page} = opened;
    await page.locator('a[href="#bench"]').click();
    const drawing = page.locator('#bench-scenes .drawing').first();
    await drawing.waitFor();
    const [dark, light] = await brightnessRange(page, await drawing.screenshot());
    assert(contrast(dark, light) >= 7, `${colorScheme}: ${contrast(dark, light)}`);
    await opened.close();
  }
});

/** The least and the greatest relative luminance of a picture's pixels. */
async function brightnessRange(page, png) {
  return page.evaluate(async base64 => {
    const bytes = Uint8Array.from(atob(base64), letter => letter.charCodeAt(0));
    const picture = await createImageBitmap(new Blob([bytes], {type: 'image/png'}));
    const canvas = new OffscreenCanvas(picture.width, picture.height);
    const context = canvas.getContext('2d');
    context.drawImage(picture, 0, 0);
    const {data} = context.getImageData(0, 0, picture.width, picture.height);
    const linear = value =>
        value <= 0.04045 * 255 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4;
    let [least, most] = [1, 0];
    for (let at = 0; at < data.length; at += 4) {
      const luminance = 0.2126 * linear(data[at]) + 0.7152 * linear(data[at + 1]) +
          0.0722 * linear(data[at + 2]);
      least = Math.min(least, luminance);
      most = Math.max(most, luminance);
    }
    return [least, most];
  }, png.toString('base64'));
}

/** As WCAG defines it. */
const contrast = (dark, light) => (light + 0.05) / (dark + 0.05);
