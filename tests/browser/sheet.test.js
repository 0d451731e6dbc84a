import assert from 'node:assert/strict';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {accessibilityFaults, openPage, startBrowser} from './support/browser.js';
import {editionOptions, everyEdition, footroom, temporaryFolder} from './support/footroom.js';

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

for (const edition of everyEdition) {
  test(`a sheet in ${edition.language} and ${edition.units} has no fault that axe knows`, async () => {
    const folder = join(temporaryFolder(), 'quiz');
    footroom('quiz', '--seed', '11', '--date', '2026-11-24', '--out', folder,
             ...editionOptions(edition));
    const opened = await openPage(browser, join(folder, 'sheet-A.html'));
    assert.deepEqual(await accessibilityFaults(opened.page), []);
    assert.deepEqual(opened.complaints, []);
    assert.deepEqual(opened.requests, []);
    await opened.close();
  });
}
