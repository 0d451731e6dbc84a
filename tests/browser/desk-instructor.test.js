// An instructor's week at the desk, from an empty folder to the next quiz.

import assert from 'node:assert/strict';
import {spawn} from 'node:child_process';
import {once} from 'node:events';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {accessibilityFaults, desktop, keepPicture, phone, sidewaysOverflow, startBrowser} from './support/browser.js';
import {program, temporaryFolder} from './support/footroom.js';

const patience = 60_000;

let browser;
before(async () => { browser = await startBrowser(); });
after(() => browser.close());

const desks = [];
after(() => desks.forEach(desk => desk.kill('SIGKILL')));  // those of tests that failed

/** A desk on an empty folder: {address, close}. */
async function startDesk() {
  const desk = spawn(program, ['desk', '--no-open', '--folder', join(temporaryFolder(), 'desk')],
                     {stdio: ['ignore', 'pipe', 'inherit']});
  desks.push(desk);
  const [said] = await once(desk.stdout, 'data');
  return {
    address: String(said).trim(),
    close: async () => { desk.kill('SIGTERM'); await once(desk, 'exit'); },
  };
}

/** What each button and link is called in the language. */
const words = {
  en: {firstClass: 'Add your class', addClass: 'Add the class', newQuiz: 'New quiz for this class',
       make: 'Make the quiz', change: 'Change this question', inAll: 'Change it in every sheet',
       answers: 'Answers', saveCheck: 'Save, and check the reading', grade: 'Grade the answers',
       next: 'Next quiz from what went wrong', isRead: 'is read as', questions: 'Questions',
       preferences: 'Preferences', save: 'Save the preferences'},
  es: {firstClass: 'Agregar su grupo', addClass: 'Agregar el grupo',
       newQuiz: 'Nuevo examen para este grupo', make: 'Preparar el examen',
       change: 'Cambiar esta pregunta', inAll: 'Cambiarla en todas las hojas',
       answers: 'Respuestas', saveCheck: 'Guardar y revisar la lectura',
       grade: 'Calificar las respuestas', next: 'Próximo examen con lo que salió mal',
       isRead: 'se lee como', questions: 'Preguntas', preferences: 'Preferencias',
       save: 'Guardar las preferencias'},
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

const runs = [
  {name: 'in English on a desktop', language: 'en', size: desktop, colorScheme: 'light', script: true},
  {name: 'in Spanish on a phone in the dark', language: 'es', size: phone, colorScheme: 'dark', script: true},
  {name: 'in English on a phone without scripts', language: 'en', size: phone, colorScheme: 'light', script: false},
];

for (const run of runs) {
  test(`a week ${run.name}`, async () => {
    const desk = await startDesk();
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
    await walkWeek(page, desk.address, run.language, async name => {
      await page.waitForLoadState();
      await keepPicture(page, `desk-${name}-${run.language}-${run.size.width}-${run.colorScheme}`);
      // axe waits for timers, which do not run where scripts are off.
      if (run.script)
        for (const fault of await accessibilityFaults(page)) faults.push(`${name}: ${fault}`);
      const over = await sidewaysOverflow(page);
      if (over > 0) faults.push(`${name}: ${over} pixels wider than the window`);
    });
    assert.deepEqual(faults, []);
    assert.deepEqual(complaints, []);
    await context.close();
    await desk.close();
  });
}

test('how an answer is read is told while it is typed, by keyboard alone', async () => {
  const desk = await startDesk();
  const context = await browser.newContext();
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  await page.goto(desk.address);
  const to = async (selector) => {
    for (let step = 0; step < 200; ++step) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(wanted => document.activeElement?.matches(wanted), selector)) return;
    }
    throw new Error(`the keyboard does not reach ${selector}`);
  };
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
