// Sheets in large print and without figures, as a browser lays them out.
import assert from 'node:assert/strict';
import {writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {accessibilityFaults, keepPicture, openPage, phone, sidewaysOverflow, startBrowser} from
  './support/browser.js';
import {editionOptions, everyEdition, footroom, temporaryFolder} from './support/footroom.js';

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

const pixelsAPoint = 96 / 72;

/** Texts under 18 points; scripts in formulas and lettering of drawings are left out. */
async function smallTexts(page) {
  return page.evaluate(least => {
    const found = [];
    const walker = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node.parentElement;
      if (!node.data.trim() || element.closest('svg, math msub, math msup, math mfrac')) {
        continue;
      }
      const size = parseFloat(getComputedStyle(element).fontSize);
      if (size < least - 0.01) {
        found.push(`${size} px: ${element.className || element.localName}: ${node.data.slice(0, 40)}`);
      }
    }
    return found;
  }, 18 * pixelsAPoint);
}

for (const edition of everyEdition) {
  test(`a class with needs, in ${edition.language} and ${edition.units}`, async () => {
    const scratch = temporaryFolder();
    const other = edition.language === 'en' ? 'Spanish' : 'English';
    writeFileSync(join(scratch, 'class.csv'),
                  'name,language,large print,without figures,extra time\n' +
                  `Ana,,yes,,\nBen,${other},,yes,50%\nCem,${other},yes,yes,15 min\n`);
    const made = join(scratch, 'made');
    footroom('quiz', '--seed', '7', '--date', '2026-11-24', '--roster', join(scratch, 'class.csv'),
             '--out', made, ...editionOptions(edition));
    for (const name of ['sheet-A', 'key-A', 'sheet-B', 'key-B', 'sheet-C', 'all-sheets']) {
      const opened = await openPage(browser, join(made, `${name}.html`));
      const {page} = opened;
      assert.deepEqual(await accessibilityFaults(page), [], name);
      if (/-[AC]$/.test(name)) {
        await page.emulateMedia({media: 'print'});
        assert.deepEqual(await smallTexts(page), [], name);
      }
      if (name === 'sheet-A') {
        const widths = await page.evaluate(() => [...document.querySelectorAll('.figure svg')].map(
            figure => figure.getBoundingClientRect().width /
                      document.querySelector('article').getBoundingClientRect().width));
        assert.ok(widths.length > 0);
        assert.ok(widths.every(width => width > 0.98), `${widths}`);
      }
      if (/-[BC]$/.test(name)) {
        assert.equal(await page.locator('figure, .figure').count(), 0, name);
        assert.ok(await page.locator('.figure-words').count() > 0, name);
      }
      await page.emulateMedia({media: 'screen'});
      await keepPicture(page, `needs-${edition.language}-${edition.units}-${name}`);
      assert.deepEqual(opened.complaints, [], name);
      await opened.close();

      const small = await openPage(browser, join(made, `${name}.html`), {size: phone});
      assert.equal(await sidewaysOverflow(small.page), 0, name);
      await small.close();
    }
  });
}
