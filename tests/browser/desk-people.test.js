// The people of the training records at the desk: added, found, corrected, erased, and who is due.

import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {keyboardWalk, startBrowser} from './support/browser.js';
import {chooseSpanish, deskRuns, startDesk, tabTo, visitDesk} from './support/desk.js';
import {footroom, program} from './support/footroom.js';

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

/** What each button and link is called in the language. */
const words = {
  en: {employer: 'Employer', due: 'Due', one: 'Add a person', list: 'Add from a list',
       add: 'Add', addList: 'Add these people', find: 'Find', correct: 'Correct',
       record: 'Record the correction', undo: 'Undo this correction', retrain: 'Ask for retraining',
       retrainButton: 'Record it', strike: 'Strike this entry', erase: 'Erase the personal data',
       eraseButton: 'Erase for good', print: 'Record to print', show: 'Show', erased: '(erased)',
       calendar: 'Save the days for a calendar program', further: 'Further',
       reason: 'equipment changed'},
  es: {employer: 'Empleador', due: 'Pendientes', one: 'Agregar una persona',
       list: 'Agregar de una lista', add: 'Agregar', addList: 'Agregar a estas personas',
       find: 'Buscar', correct: 'Corregir', record: 'Registrar la corrección',
       undo: 'Deshacer esta corrección', retrain: 'Pedir recapacitación',
       retrainButton: 'Registrarlo', strike: 'Anular esta anotación',
       erase: 'Borrar los datos personales', eraseButton: 'Borrar para siempre',
       print: 'Registro para imprimir', show: 'Mostrar', erased: '(borrado)',
       calendar: 'Guardar los días para un programa de calendario', further: 'Siguientes',
       reason: 'cambió el equipo'},
};

/** Adds a course with an interval, which other rooms of the desk do, by the command line. */
function addCourse(desk) {
  const record = (...more) => footroom('record', ...more, '--store', join(desk.folder, 'crew.db'));
  record('add-course', 'fall-protection', '--english', 'Fall protection', '--spanish',
         'Protección contra caídas');
  record('set-policy', '--employer', 'Invented Roofing', '--course', 'fall-protection',
         '--refresher-months', '12');
}

/** Walks the rooms; `look` is called at each page with its name. */
async function walkPeople(page, desk, language, look) {
  const say = words[language];
  const link = name => page.getByRole('link', {name, exact: true});
  const button = name => page.getByRole('button', {name, exact: true});
  await page.goto(desk.address);
  if (language === 'es') await chooseSpanish(page, desk.address);
  await link(say.employer).click();
  await look('people-empty');

  await link(say.one).click();
  await button(say.add).click();
  await page.locator('#name-error').waitFor();
  await look('person-new-wrong');
  await page.locator('#name').fill('José Ejemplo');
  await page.locator('#identity').fill('A-1');
  await page.locator('#new-employer').fill('Invented Roofing');
  await button(say.add).click();
  await page.locator('.told').waitFor();
  await look('person-new');

  await page.goto(new URL('/people/import', desk.address).href);
  await look('people-import');
  await page.locator('#pasted').fill(
      'identity\tname\temployer\nA-1\tBen Sample\tInvented Roofing\nA-3\t\tInvented Rofing\n');
  await button(say.addList).click();
  await page.locator('#pasted-error').waitFor();
  await look('people-import-wrong');
  const crew = Array.from({length: 60}, (_, i) => `B-${i}\tWorker ${i} Sample\tInvented Roofing`);
  await page.locator('#pasted').fill(`identity\tname\temployer\n${crew.join('\n')}\n`);
  await button(say.addList).click();
  await page.locator('.told').waitFor();
  await link(say.employer).click();
  await look('people');
  await link(say.further).click();
  await look('people-second-page');
  await page.locator('#find').fill('jose a-1');
  await button(say.find).click();
  await look('people-found');

  addCourse(desk);
  await link('José Ejemplo (A-1)').click();
  await look('person-due');
  await link(say.correct).click();
  await page.locator('#name').fill('José M. Ejemplo');
  await look('person-correct');
  await button(say.record).click();
  await page.locator('.told').waitFor();
  await link(say.retrain).click();
  await look('person-retrain');
  await page.getByLabel(say.reason).check();
  await page.locator('#since').fill('2026-01-05');
  await page.locator('#remark').fill('A new kind of anchor');
  await button(say.retrainButton).click();
  await page.locator('.told').waitFor();
  await look('person');
  await page.locator('.history a').nth(1).click();
  await look('person-entry');
  await button(say.undo).click();
  await page.locator('.told').waitFor();
  assert.equal(await page.locator('h1').innerText(), 'José Ejemplo');
  const printed = await page.context().newPage();
  await printed.goto(new URL(await link(say.print).getAttribute('href'), desk.address).href);
  assert.match(await printed.locator('main, article').first().innerText(), /José Ejemplo/);
  await printed.close();

  await link(say.due).click();
  await page.locator('.dues').first().waitFor();
  await look('due');
  const saved = page.waitForEvent('download');
  await link(say.calendar).click();
  assert.equal((await saved).suggestedFilename(), 'due.ics');
  await page.locator('#on').fill('2026-01-01');
  await button(say.show).click();
  await page.waitForURL(/on=2026-01-01/);
  await look('due-nobody');

  await page.goto(new URL('/people?find=jose', desk.address).href);
  await page.locator('.rows a').click();
  await page.locator('.history a').nth(2).click();
  await look('person-entry-strike');
  await button(say.strike).click();
  await page.locator('.told').waitFor();
  await link(say.erase).click();
  await button(say.eraseButton).click();
  await page.locator('#sure-error').waitFor();
  await look('person-erase');
  await page.locator('#sure-1').check();
  await button(say.eraseButton).click();
  await page.locator('.told').waitFor();
  assert.equal(await page.locator('h1').innerText(), say.erased);
  await look('person-erased');
}

for (const run of deskRuns) {
  test(`the people ${run.name}`, async () => {
    const desk = await startDesk();
    const {page, look, faults, complaints, close} = await visitDesk(browser, desk, run);
    await walkPeople(page, desk, run.language, look);
    assert.deepEqual(faults, []);
    assert.deepEqual(complaints, []);
    await close();
    await desk.close();
    execFileSync(program, ['record', 'verify', '--store', join(desk.folder, 'crew.db')]);
  });
}

test('a person is added and found by keyboard alone', async () => {
  const desk = await startDesk();
  const {page, close} = await visitDesk(browser, desk, deskRuns[0]);
  await page.goto(desk.address);
  await tabTo(page, '.top a[href="/people"]');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/people$/);
  await tabTo(page, 'main a.button');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/people\/new$/);
  await tabTo(page, '#name');
  await page.keyboard.type('Ana Ejemplo');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/people\/1\?/);
  await page.goto(new URL('/people', desk.address).href);
  await tabTo(page, '#find');
  await page.keyboard.type('ana');
  await page.keyboard.press('Enter');
  await page.waitForURL(/find=ana/);
  await tabTo(page, '.rows a');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/people\/1$/);
  const walked = await keyboardWalk(page);
  assert.deepEqual(walked.filter(one => !one.visible), []);
  await close();
  await desk.close();
});
