// A sheet that travels: what a camera reads off the paper makes the sheet again, with quiz.json.
import assert from 'node:assert/strict';
import {execFileSync, spawnSync} from 'node:child_process';
import {readdirSync, readFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {openPage, phone, printToPdf, startBrowser} from './support/browser.js';
import {footroom, program, temporaryFolder} from './support/footroom.js';

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

/** The QR codes that zbar finds in a picture. */
function codesIn(picture) {
  const read = execFileSync('zbarimg', ['--quiet', '--raw', '--nodbus', '-Sdisable',
                                        '-Sqrcode.enable', picture], {encoding: 'utf8'});
  return read.split('\n').filter(line => line !== '');
}

/** The files of one seat in a folder and its figures, by name. */
function filesOfSeat(folder, seat) {
  const names = [...readdirSync(folder), ...readdirSync(join(folder, 'figures')).map(
      name => `figures/${name}`)];
  const ours = new RegExp(`^((sheet|key)-${seat}\\.(md|html)|figures/${seat}-\\d+(-key)?\\.svg)$`);
  return Object.fromEntries(names.filter(name => ours.test(name)).sort().map(
      name => [name, readFileSync(join(folder, name)).toString('base64')]));
}

for (const [paper, language, dpi] of [['letter', 'en', 100], ['a4', 'es', 150]]) {
  test(`the printed code on ${paper} makes sheet and key again`, async () => {
    const scratch = temporaryFolder();
    const made = join(scratch, 'made');
    footroom('quiz', '--sheets', '3', '--paper', paper, '--language', language, '--out', made);
    const {code} = JSON.parse(readFileSync(join(made, 'quiz.json')));

    const opened = await openPage(browser, join(made, 'sheet-B.html'));
    await printToPdf(opened.page, join(scratch, 'sheet.pdf'));
    await opened.close();
    execFileSync('pdftoppm', ['-r', String(dpi), '-png', '-l', '1', join(scratch, 'sheet.pdf'),
                              join(scratch, 'page')]);
    const picture = readdirSync(scratch).find(name => name.startsWith('page'));
    assert.deepEqual(codesIn(join(scratch, picture)), [`${code}-B`]);

    const again = join(scratch, 'again');
    footroom('quiz', '--code', `${code}-B`, '--from', made, '--out', again);
    const files = filesOfSeat(again, 'B');
    assert.ok(Object.keys(files).length >= 4);
    assert.deepEqual(files, filesOfSeat(made, 'B'));
    assert.deepEqual(readdirSync(again).filter(name => name !== 'figures').sort(),
                     ['key-B.html', 'key-B.md', 'sheet-B.html', 'sheet-B.md']);

    const alone = spawnSync(program, ['quiz', '--code', `${code}-B`],
                            {cwd: scratch, encoding: 'utf8'});
    assert.equal(alone.status, 2);
    assert.match(alone.stderr, /^--code: a code only names a sheet/);
    assert.equal(alone.stdout, '');
  });
}

test('a camera reads the code off a phone in the dark', async () => {
  const scratch = temporaryFolder();
  footroom('quiz', '--out', join(scratch, 'made'));
  const {code} = JSON.parse(readFileSync(join(scratch, 'made', 'quiz.json')));
  const opened = await openPage(browser, join(scratch, 'made', 'sheet-A.html'),
                                {size: phone, colorScheme: 'dark'});
  await opened.page.screenshot({path: join(scratch, 'screen.png')});
  await opened.close();
  assert.deepEqual(codesIn(join(scratch, 'screen.png')), [`${code}-A`]);
});
