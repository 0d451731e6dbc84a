// The practice page as a student uses it: sittings of questions by touch and by keys, what is kept,
// what comes back, what can be saved.

import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {openPage, startBrowser} from './support/browser.js';
import {footroom, temporaryFolder} from './support/footroom.js';
import {askCore, fillIn, goOn, handIn, inHand, keyboardHand, makePractice, openAgain, openPractice,
        openQuestion, openQuestionOf, rightAnswer, touchingHand, verdict, wrongAnswer} from './support/practice.js';

let browser;
let file;
before(async () => {
  file = makePractice(temporaryFolder());
  browser = await startBrowser();
});
after(() => browser.close());

/** Nothing may be asked of a network, and the browser may have nothing to complain about. */
function assertQuiet(opened) {
  assert.deepEqual(opened.complaints, []);
  assert.deepEqual(opened.requests.filter(address => !/^(data|blob):/.test(address)), []);
}

async function start(page, hand, units) {
  await hand.check(page.locator(`input[name=units][value=${units}]`));
  await hand.press(page.locator('#start-below'));
  await page.locator('#answer-form:visible').waitFor();
}

/** Answers the open question and checks what the page says; returns whether it is right. */
async function answerOne(page, hand, turn) {
  const question = await openQuestion(page);
  assert.equal(await page.locator('#question-title').textContent(), question.title);
  if (turn % 7 === 6) {
    await hand.press(page.locator('#give-up'));
    const told = await verdict(page);
    assert(told.mark !== 'right' && await page.locator('#right-answer').isVisible());
    return false;
  }
  if (turn % 2 === 0) {
    await fillIn(page, hand, question, await rightAnswer(page, question));
    const told = await handIn(page, hand);
    assert.equal(told.mark, 'right', `${question.item}: ${told.said}`);
    return true;
  }
  const {answer, says} = await wrongAnswer(page, question);
  await fillIn(page, hand, question, answer);
  const told = await handIn(page, hand);
  assert.notEqual(told.mark, 'right', `${question.item}: ${told.said}`);
  assert(spaced(told.said).includes(spaced(says)), `${question.item}: ${told.said}\nwithout: ${says}`);
  assert(await page.locator('#right-answer').isHidden(), 'the right answer waits until asked for');
  return false;
}

const spaced = text => text.replace(/\s+/g, ' ').trim();

/** The columns of the table of progress, summed: asked and right. */
async function shownProgress(page) {
  await page.evaluate(() => { location.hash = '#progress'; });
  await page.locator('#looking-back:visible').waitFor();
  const rows = await page.locator('#progress-table tbody tr').evaluateAll(
      all => all.map(row => [...row.querySelectorAll('td')].map(one => Number(one.textContent))));
  return {asked: sum(rows.map(row => row[0])), right: sum(rows.map(row => row[1]))};
}

const sum = numbers => numbers.reduce((one, other) => one + other, 0);

const hands = [
  {name: 'by touch', hand: () => touchingHand, languages: ['en', 'es'], units: 'us'},
  {name: 'by keys alone', hand: keyboardHand, languages: ['en', 'es'], units: 'si'},
];
for (const {name, hand: handOf, languages, units} of hands) {
  for (const language of languages) {
    test(`twenty questions ${name}, in ${language} and ${units}, with a reload between`, async () => {
      const opened = await openPractice(browser, file, inHand(language));
      const {page} = opened;
      const hand = handOf(page);
      assert.equal(await page.evaluate(() => document.documentElement.lang), language);
      await start(page, hand, units);
      let right = 0;
      for (let turn = 0; turn < 20; ++turn) {
        if (turn === 10) {
          const before = await openQuestion(page);
          await openAgain(page);
          assert.deepEqual(await openQuestion(page), before);
          assert.equal(await page.locator('#question-title').textContent(), before.title);
        }
        right += await answerOne(page, hand, turn);
        if (turn === 15) {
          await openAgain(page);
          assert(await page.locator('#verdict').isVisible(), 'the verdict is still there');
        }
        if (turn < 19) await goOn(page, hand);
      }
      assert.deepEqual(await shownProgress(page), {asked: 20, right});
      await openAgain(page);
      assert.deepEqual(await shownProgress(page), {asked: 20, right});
      assertQuiet(opened);
      await opened.close();
    });
  }
}

test('what was missed comes back, and is told from what is new', async () => {
  const opened = await openPractice(browser, file, inHand('en'));
  const {page} = opened;
  await start(page, touchingHand, 'us');
  const missed = await openQuestion(page);
  await touchingHand.press(page.locator('#give-up'));
  assert.equal((await askCore(page, 'topics')).due, 1);
  let returned = null;
  for (let turn = 0; turn < 12 && !returned; ++turn) {
    await goOn(page, touchingHand);
    const question = await openQuestion(page);
    if (question.item === missed.item) {
      returned = question;
    } else {
      assert(await page.locator('#question-again').isHidden());
    }
    await fillIn(page, touchingHand, question, await rightAnswer(page, question));
    if (!returned) await handIn(page, touchingHand);
  }
  assert(returned, 'the missed question returns within a dozen');
  assert(returned.again);
  assert(await page.locator('#question-again').isVisible());
  assert.equal((await handIn(page, touchingHand)).mark, 'right');
  assertQuiet(opened);
  await opened.close();
});

test('a step shown before the answer counts as help, and steps come one at a time', async () => {
  const opened = await openPractice(browser, file, inHand('en'));
  const {page} = opened;
  const question = await openQuestionOf(page, {kind: 'number', leastSteps: 3});
  const due = (await askCore(page, 'topics')).due;
  await page.locator('#show-step').tap();
  assert.equal(await page.locator('#steps > li').count(), 1);
  assert(await page.locator('#steps > li').evaluate(one => one === document.activeElement));
  await openAgain(page);
  assert.equal(await page.locator('#steps > li').count(), 1);
  await fillIn(page, touchingHand, question, await rightAnswer(page, question));
  assert.equal((await handIn(page, touchingHand)).mark, 'right');
  assert.equal((await askCore(page, 'topics')).due, due + 1);
  for (let shown = 2; shown <= question.steps; ++shown) {
    await page.locator('#show-step').tap();
    assert.equal(await page.locator('#steps > li').count(), shown);
  }
  assert(await page.locator('#show-step').isHidden());
  assertQuiet(opened);
  await opened.close();
});

test('the typed answer is read as it is typed, and what cannot be read is not counted', async () => {
  const opened = await openPractice(browser, file, inHand('en'));
  const {page} = opened;
  await openQuestionOf(page, {kind: 'number', inUnit: 'ft'});
  const field = page.locator('#answer');
  for (const [typed, read] of [[`12' 6"`, '12 ft 6 in'], ['12,5', '12.5'], ['3.81 m', '3.81 m']]) {
    await field.fill(typed);
    assert(spaced(await page.locator('#reading').textContent()).includes(read), `${typed}: ${read}`);
  }
  await page.locator('#reading-news', {hasText: /3\.81\sm/}).waitFor({state: 'attached'});
  const asked = (await askCore(page, 'topics')).asked;
  await field.fill('about a rope');
  await page.locator('#answer-buttons button').tap();
  assert.notEqual(await page.locator('#answer-problem').textContent(), '');
  assert.equal(await field.getAttribute('aria-invalid'), 'true');
  await field.fill('');
  await page.locator('#answer-buttons button').tap();
  assert.notEqual(await page.locator('#answer-problem').textContent(), '');
  assert(await page.locator('#verdict').isHidden());
  assert.equal((await askCore(page, 'topics')).asked, asked);
  assertQuiet(opened);
  await opened.close();
});

test('after a wrong answer one can try again, and the first one counts', async () => {
  const opened = await openPractice(browser, file, inHand('es'));
  const {page} = opened;
  const question = await openQuestionOf(page, {kind: 'number', units: 'si'});
  const right = await rightAnswer(page, question);
  const {answer} = await wrongAnswer(page, question);
  await fillIn(page, touchingHand, question, answer);
  assert.equal((await handIn(page, touchingHand)).mark, 'wrong');
  const counted = (await askCore(page, 'topics')).right;
  await page.locator('#verdict-buttons button').nth(1).tap();
  assert(await page.locator('#answer').evaluate(one => one === document.activeElement));
  await fillIn(page, touchingHand, question, right);
  assert.equal((await handIn(page, touchingHand)).mark, 'right');
  assert.equal((await askCore(page, 'topics')).right, counted);
  assertQuiet(opened);
  await opened.close();
});

const american = ['ft', 'lbf', 'lb', 'ft/s', 'in'];
const metric = ['m', 'kN', 'kg', 'm/s', 'cm', 'mm'];

test('language and units change without loss', async () => {
  const opened = await openPractice(browser, file, inHand('en'));
  const {page} = opened;
  const english = await openQuestionOf(page, {kind: 'number', inUnit: 'ft'});
  await page.locator('#answer').fill('12.5');
  const asked = (await askCore(page, 'topics')).asked;
  await page.locator('#languages button').tap();
  const spanish = await openQuestion(page);
  assert.equal(spanish.item, english.item);
  assert.notEqual(spanish['stem-html'], english['stem-html']);
  assert.equal(await page.locator('#question-title').textContent(), spanish.title);
  assert.equal(await page.locator('#answer').inputValue(), '12.5');
  await page.locator('a[href="#practice"]').tap();
  await page.locator('input[name=units][value=si]').tap();
  await page.locator('#back').tap();
  assert.equal((await openQuestion(page)).unit, english.unit);
  await page.locator('#give-up').tap();
  let question = {unit: ''};
  for (let turn = 0; turn < 60 && !american.concat(metric).includes(question.unit); ++turn) {
    await goOn(page, touchingHand);
    question = await openQuestion(page);
    await fillIn(page, touchingHand, question, await rightAnswer(page, question));
    await handIn(page, touchingHand);
  }
  assert(metric.includes(question.unit), question.unit);
  assert((await askCore(page, 'topics')).asked > asked);
  await openAgain(page);
  assert.equal(await page.evaluate(() => document.documentElement.lang), 'es');
  assertQuiet(opened);
  await opened.close();
});

test('only the topics and levels chosen are asked', async () => {
  const opened = await openPractice(browser, file, inHand('en'));
  const {page} = opened;
  await page.locator('#no-topics').tap();
  await page.locator('#start').tap();
  assert.notEqual(await page.locator('#choice-problem').textContent(), '');
  await page.locator('input[name=topic][value=swing]').tap();
  for (const level of ['1', '3', '4']) await page.locator(`input[name=level][value="${level}"]`).tap();
  await page.locator('#start').tap();
  for (let turn = 0; turn < 6; ++turn) {
    const {topic, level} = await openQuestion(page);
    assert.deepEqual({topic, level}, {topic: 'swing', level: 2});
    await page.locator('#give-up').tap();
    await goOn(page, touchingHand);
  }
  await openAgain(page);
  await page.locator('a[href="#practice"]').tap();
  assert.equal(await page.locator('input[name=topic]:checked').count(), 1);
  assertQuiet(opened);
  await opened.close();
});

test('the progress can be forgotten, after a question', async () => {
  const opened = await openPractice(browser, file, inHand('en'));
  const {page} = opened;
  await start(page, touchingHand, 'us');
  await answerOne(page, touchingHand, 0);
  await page.locator('a[href="#progress"]').tap();
  await page.locator('#forget').tap();
  assert(await page.locator('#keep-progress').evaluate(one => one === document.activeElement));
  await page.locator('#keep-progress').tap();
  assert.deepEqual(await shownProgress(page), {asked: 1, right: 1});
  await page.locator('#forget').tap();
  await page.locator('#forget-progress').tap();
  assert.deepEqual(await shownProgress(page), {asked: 0, right: 0});
  assert.equal(await page.evaluate(() => localStorage.getItem('footroom-practice')), null);
  await openAgain(page);
  await page.locator('a[href="#practice"]').tap();
  await page.locator('#choosing:visible').waitFor();
  assertQuiet(opened);
  await opened.close();
});

test('a saved practice is graded as the page marked it, and recorded as practice', async () => {
  const opened = await openPractice(browser, file, {...inHand('es'), acceptDownloads: true});
  const {page} = opened;
  await start(page, touchingHand, 'si');
  const marked = [];
  for (let turn = 0; turn < 7; ++turn) {
    marked.push(await answerOne(page, touchingHand, turn));
    if (turn < 6) await goOn(page, touchingHand);
  }
  await page.locator('a[href="#progress"]').tap();
  await page.locator('#result-name').fill('Ana Ejemplo');
  const [download] = await Promise.all(
      [page.waitForEvent('download'), page.locator('#result-form button').tap()]);
  assert.notEqual(await page.locator('#result-news').textContent(), '');
  const folder = temporaryFolder();
  const saved = join(folder, download.suggestedFilename());
  await download.saveAs(saved);
  assertQuiet(opened);
  await opened.close();

  const graded = join(folder, 'graded');
  footroom('grade', saved, '--out', graded);
  const results = join(graded, 'results.json');
  const [seat] = JSON.parse(readFileSync(results, 'utf8')).seats;
  assert.equal(seat.name, 'Ana Ejemplo');
  assert.deepEqual(seat.questions.map(({points, possible}) => points === possible), marked);

  const store = join(folder, 'crew.db');
  const record = (...words) => footroom('record', ...words, '--store', store);
  record('init');
  record('add-employer', 'Invented Roofing', '--place', 'Sampletown');
  record('add-person', 'Ana Ejemplo', '--identity', 'A-1', '--employer', 'Invented Roofing');
  assert.throws(() => record('add-results', results, '--occasion', 'test'));
  assert.match(record('add-results', results), /: 1\n/);
});

test('where the browser keeps nothing, the page says so and works', async () => {
  const denied = () => Object.defineProperty(
      window, 'localStorage', {get() { throw new DOMException('denied', 'SecurityError'); }});
  const opened = await openPractice(browser, file, {...inHand('en'), beforehand: denied});
  const {page} = opened;
  const note = await page.locator('#kept-note').textContent();
  await page.locator('#start').tap();
  await page.locator('#give-up').tap();
  await verdict(page);
  await goOn(page, touchingHand);
  await page.locator('a[href="#progress"]').tap();
  assert.equal((await shownProgress(page)).asked, 1);
  const ordinary = await openPractice(browser, file, inHand('en'));
  assert.notEqual(await ordinary.page.locator('#kept-note').textContent(), note);
  assertQuiet(opened);
  await ordinary.close();
  await opened.close();
});

test('a page whose core cannot start, or that fails later, says so', async () => {
  const withoutCore = () => { delete window.WebAssembly; };
  const never = await openPage(browser, file, {...inHand('en'), beforehand: withoutCore});
  await never.page.locator('#fault p').waitFor();
  assert.match(await never.page.locator('#fault').innerText(), /went wrong/);
  await never.close();

  const opened = await openPractice(browser, file, inHand('es'));
  const {page} = opened;
  await page.evaluate(() => {
    HTMLElement.prototype.focus = () => { throw new Error('planted'); };
  });
  await page.locator('#start').tap();
  await page.locator('#fault p').waitFor();
  assert.match(await page.locator('#fault').innerText(), /falló.*planted/);
  await opened.close();
});

/** Has the page's core fail at one kind of request. */
function failAt(what) {
  let start;
  Object.defineProperty(window, 'startFootroom', {
    get: () => async () => {
      const core = await start();
      return {ask: request => request.ask === what ? {fault: 'planted'} : core.ask(request)};
    },
    set: given => { start = given; },
  });
}

test('a fault of the core is told as one, and leaves the page at work', async () => {
  for (const [what, place] of [['current', '#choosing'], ['reading', '#asking']]) {
    const beforehand = `(${failAt})(${JSON.stringify(what)})`;
    const opened = await openPage(browser, file, {...inHand('es'), beforehand});
    const {page} = opened;
    await page.locator('#choosing:visible').waitFor();
    if (what === 'reading') {
      await openQuestionOf(page, {kind: 'number'});
      await page.locator('#answer').fill('1');
    }
    await page.locator('#fault p').waitFor();
    assert.match(await page.locator('#fault').innerText(), /falló.*planted/);
    assert.equal(await page.locator('#notice').textContent(), '');
    assert(await page.locator(place).isVisible());
    await opened.close();
  }
});

test('what is refused in English is told in the language of the page', async () => {
  const opened = await openPractice(browser, file, inHand('es'));
  const {page} = opened;
  await page.evaluate(() => { crypto.getRandomValues = () => [0, 0.5]; });
  await page.locator('#start').tap();
  const notice = page.locator('#notice');
  assert.match(await notice.textContent(), /^La página no puede hacer eso.*request:.*seed/);
  assert.match(await notice.locator('[lang=en]').textContent(), /^request:/);
  assert.equal(await page.locator('#fault').textContent(), '');
  assert(await page.locator('#choosing').isVisible());
  await opened.close();
});

test('the file carries a strict policy, and the browser keeps to it', async () => {
  const text = readFileSync(file, 'utf8');
  const [, policy] = text.match(/http-equiv="Content-Security-Policy" content="([^"]*)"/);
  assert.match(policy, /default-src 'none'/);
  assert.doesNotMatch(policy, /unsafe-inline|(?<!wasm-)unsafe-eval|https?:|\*/);
  const markup = text.replace(/(<(script|style)\b[^>]*>)[\s\S]*?<\/\2>/g, '$1');
  assert.doesNotMatch(markup, /\b(?:src|href)\s*=\s*["'](?!#|data:,)|\son\w+\s*=|\sstyle\s*=/i);
  assert(Buffer.byteLength(text) < 2_000_000);
  const opened = await openPractice(browser, file);
  const {page} = opened;
  const broken = await page.evaluate(async () => {
    const seen = [];
    document.addEventListener('securitypolicyviolation', event => seen.push(event.effectiveDirective));
    const script = document.createElement('script');
    script.textContent = 'window.planted = true';
    document.head.append(script);
    await fetch('https://example.invalid/').catch(() => {});
    await new Promise(resolve => setTimeout(resolve, 100));
    return {seen, planted: window.planted ?? false};
  });
  assert.equal(broken.planted, false);
  assert.deepEqual(broken.seen.sort(), ['connect-src', 'script-src-elem']);
  await opened.close();
});
