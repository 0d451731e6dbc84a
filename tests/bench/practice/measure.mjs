// Measures how fast the practice page is. README.md tells how to run it, and what it gave.

import {statSync} from 'node:fs';
import {pathToFileURL} from 'node:url';
import {phone, startBrowser} from '../../browser/support/browser.js';
import {temporaryFolder} from '../../browser/support/footroom.js';
import {makePractice} from '../../browser/support/practice.js';

const openings = 10;
const questions = 100;
const stepsOfASlider = 60;

const file = makePractice(temporaryFolder());
const browser = await startBrowser();

/** A window that has never seen the page, `slower` times as slow as this machine. */
async function freshPage(slower, beforehand = () => {}) {
  const context = await browser.newContext({viewport: phone, hasTouch: true, offline: true});
  const page = await context.newPage();
  await page.addInitScript(beforehand);
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', {rate: slower});
  await session.send('Performance.enable', {timeDomain: 'threadTicks'});
  await page.goto(pathToFileURL(file).href);
  return {page, session};
}

/** Milliseconds that the page's main thread has worked: other programs on the machine left out. */
async function worked(session) {
  const {metrics} = await session.send('Performance.getMetrics');
  return 1000 * metrics.find(metric => metric.name === 'TaskDuration').value;
}

/** Presses the first button as soon as it is there, and notes when the question is painted. */
function hurry() {
  const look = () => {
    const asking = document.getElementById('asking');
    if (asking && !asking.hidden) {
      requestAnimationFrame(() => setTimeout(() => { window.firstQuestion = performance.now(); }));
      return;
    }
    if (document.getElementById('choosing')?.hidden === false) {
      document.getElementById('start').click();
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

async function firstQuestion(slower) {
  const {page, session} = await freshPage(slower, hurry);
  await page.waitForFunction(() => window.firstQuestion);
  const time = await page.evaluate(() => window.firstQuestion);
  const work = await worked(session);
  await page.context().close();
  return {time, work};
}

/** From the press of a button to the page laid out anew: next question, and its marking. */
async function questionAfterQuestion() {
  const {page} = await freshPage(1);
  await page.locator('#start').click();
  await page.locator('#answer-form:visible').waitFor();
  const times = await page.evaluate(count => {
    const timed = button => {
      const begin = performance.now();
      button.click();
      document.body.getBoundingClientRect();
      return performance.now() - begin;
    };
    const all = {marking: [], next: []};
    for (let turn = 0; turn < count; ++turn) {
      all.marking.push(timed(document.getElementById('give-up')));
      all.next.push(timed(document.getElementById('next-again')));
    }
    return all;
  }, questions);
  await page.context().close();
  return times;
}

/** Moves every slider through its range: a frame's work and layout for each step. */
async function benchSteps() {
  const {page, session} = await freshPage(1);
  await page.locator('a[href="#bench"]').click();
  await page.locator('#control-slack').waitFor();
  const before = await worked(session);
  const times = await page.evaluate(async steps => {
    const times = [];
    const request = window.requestAnimationFrame.bind(window);
    window.requestAnimationFrame = work => request(() => {
      const begin = performance.now();
      work();
      document.body.getBoundingClientRect();
      times.push(performance.now() - begin);
    });
    for (const slider of document.querySelectorAll('#trying input[type=range]')) {
      const first = slider.value;
      const [least, most] = [Number(slider.min), Number(slider.max)];
      for (let step = 0; step <= steps; ++step) {
        slider.value = least + (most - least) * step / steps;
        slider.dispatchEvent(new Event('input'));
        await new Promise(resolve => request(resolve));
        await new Promise(resolve => setTimeout(resolve));
      }
      slider.value = first;
      slider.dispatchEvent(new Event('input'));
      await new Promise(resolve => request(resolve));
    }
    return times;
  }, stepsOfASlider);
  const work = (await worked(session) - before) / times.length;
  await page.context().close();
  return {times, work};
}

function row(what, times, work) {
  const sorted = [...times].sort((one, other) => one - other);
  const at = share => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  const cells = [at(0.5), at(0.95), sorted.at(-1)].map(time => `${time.toFixed(1)} ms`);
  const worked = work === undefined ? '' : `${work.toFixed(1)} ms`;
  console.log(`| ${what} | ${times.length} | ${cells.join(' | ')} | ${worked} |`);
}

console.log(`size: ${statSync(file).size} bytes\n`);
console.log('| what | times | median | 95 in 100 | longest | work |\n|---|---|---|---|---|---|');
for (const slower of [1, 4]) {
  const all = [];
  for (let turn = 0; turn < openings; ++turn) all.push(await firstQuestion(slower));
  const work = all.reduce((sum, one) => sum + one.work, 0) / openings;
  row(slower === 1 ? 'first question' : `first question, slowed ${slower} times`,
      all.map(one => one.time), slower === 1 ? work : undefined);
}
const {marking, next} = await questionAfterQuestion();
row('marking an answer', marking);
row('next question', next);
const {times, work} = await benchSteps();
row('step of a slider', times, work);
await browser.close();
