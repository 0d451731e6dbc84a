// An instructor's week at the desk, from an empty folder to the next quiz.

import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';
import {startBrowser} from './support/browser.js';
import {deskRuns, startDesk, tabTo, visitDesk} from './support/desk.js';

const patience = 60_000;

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

/** What each button and link is called in the language. */
const words = {
  en: {firstClass: 'Add your class', addClass: 'Add the class', newQuiz: 'New quiz for this class',
       make: 'Make the quiz', change: 'Change this question', inAll: 'Change it in every sheet',
       answers: 'Answers', saveCheck: 'Save, and check the reading', grade: 'Grade the answers',
       next: 'Next quiz from what went wrong', isRead: 'is read as', questions: 'Questions',
       preferences: 'Preferences', save: 'Save the preferences', savePerson: 'Save',
       moreTime: '25% more time'},
  es: {firstClass: 'Agregar su grupo', addClass: 'Agregar el grupo',
       newQuiz: 'Nuevo examen para este grupo', make: 'Preparar el examen',
       change: 'Cambiar esta pregunta', inAll: 'Cambiarla en todas las hojas',
       answers: 'Respuestas', saveCheck: 'Guardar y revisar la lectura',
       grade: 'Calificar las respuestas', next: 'Próximo examen con lo que salió mal',
       isRead: 'se lee como', questions: 'Preguntas', preferences: 'Preferencias',
       save: 'Guardar las preferencias', savePerson: 'Guardar',
       moreTime: '25 % más de tiempo'},
};

/** Walks the week; `look` is called at each page with its name. */
async function walkWeek(page, address, language, look) {
  const say = words[language];
  const link = name => page.getByRole('link', {name, exact: true});
  const button = name => page.getByRole('button', {name, exact: true});
  await page.goto(address);
  if (language === 'es') {
    await link(words.en.preferences).click();
    await page.getByLabel('Español').check();
    await button(words.en.save).click();
    await look('preferences');
    await page.goto(new URL('/', address).href);
  }
  await look('start-empty');
  await link(say.firstClass).click();
  await button(say.addClass).click();
  await page.locator('.wrong').waitFor();
  await look('class-wrong');
  await page.locator('#title').fill('Invented crew');
  await page.locator('#names').fill('Ana Ejemplo\nBen Sample\nTheo Trainer');
  await button(say.addClass).click();
  await look('class');
  await link('Ben Sample').click();
  await page.locator('#sheet-1').check();
  await page.locator('#language').selectOption('es');
  await page.locator('#extra-time').fill('much');
  await button(say.savePerson).click();
  await page.locator('#extra-time-error').waitFor();
  await look('class-person-wrong');
  await page.locator('#extra-time').fill('25%');
  await button(say.savePerson).click();
  await page.locator('.told').waitFor();
  await look('class-person');
  await page.locator('.above a').click();
  await page.getByText(say.moreTime).waitFor();
  await look('class-needs');
  await link(say.newQuiz).click();
  await look('quiz-new');
  await button(say.make).click();
  await page.locator('#questions').waitFor();
  await look('quiz');
  const before = await page.locator('#question-1').innerText();
  await page.locator('#question-1').getByText(say.change, {exact: true}).click();
  await page.locator('#question-1').getByRole('button', {name: say.inAll}).click();
  await page.locator('#questions').waitFor();
  assert.notEqual(await page.locator('#question-1').innerText(), before);
  await link(say.answers).click();
  await look('answers');
  await page.getByRole('link', {name: 'A Ana Ejemplo'}).click();
  for (const field of await page.locator('input[id^="answer-"]').all()) {
    const described = await field.getAttribute('aria-describedby');
    await field.fill(described.includes('-unit') ? '12.5' : 'A');
  }
  await button(say.saveCheck).click();
  await page.getByText(say.isRead).first().waitFor();
  await look('answers-seat');
  await link(say.answers).first().click();
  await button(say.grade).click();
  await page.locator('#scores-heading').waitFor();
  await look('results');
  await link(say.next).click();
  await page.locator('input[name="topics"]').first().waitFor();
  await look('quiz-next');
  await button(say.make).click();
  await page.locator('#questions').waitFor();
  await page.goto(new URL('/care', address).href);
  await look('care');
  await page.goto(new URL('/', address).href);
  await look('start');
}

for (const run of deskRuns) {
  test(`a week ${run.name}`, async () => {
    const desk = await startDesk();
    const {page, look, faults, complaints, close} = await visitDesk(browser, desk, run);
    await walkWeek(page, desk.address, run.language, look);
    assert.deepEqual(faults, []);
    assert.deepEqual(complaints, []);
    await close();
    await desk.close();
  });
}

test('how an answer is read is told while it is typed, by keyboard alone', async () => {
  const desk = await startDesk();
  const context = await browser.newContext();
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  await page.goto(desk.address);
  const to = selector => tabTo(page, selector);
  await to('main a.button');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/classes$/);
  await to('#title');
  await page.keyboard.type('Crew');
  await to('#names');
  await page.keyboard.type('Ana Ejemplo');
  await to('button[type="submit"]');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/classes\/1/);
  await to('main a.button');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/quizzes\/new/);
  await to('button[type="submit"]');
  await page.keyboard.press('Enter');
  await page.locator('#questions').waitFor();
  await page.goto(new URL('/quizzes/1/answers/A', desk.address).href);
  const number = page.locator('input[aria-describedby*="-unit"]').first();
  await number.focus();
  await page.keyboard.type("3.8");
  await page.getByText('is read as 3.8').waitFor();
  await context.close();
  await desk.close();
});
