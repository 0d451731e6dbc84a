import assert from 'node:assert/strict';
import {join} from 'node:path';
import {accessibilityFaults, openPage, phone, sidewaysOverflow} from './browser.js';
import {footroom} from './footroom.js';

/** Has the program write the practice page into a folder, and returns its file. */
export function makePractice(folder, ...options) {
  const file = join(folder, 'practice.html');
  footroom('practice', '--out', file, ...options);
  return file;
}

/** A phone in somebody's hand: small, touched, and in a language. */
export function inHand(language) {
  return {size: phone, hasTouch: true, isMobile: true, locale: `${language}-US`};
}

/** Opens the page and waits until it asks or offers something. See openPage. */
export async function openPractice(browser, file, options) {
  const opened = await openPage(browser, file, options);
  await untilShown(opened.page);
  return opened;
}

export async function untilShown(page) {
  await page.locator('main > section:not(#starting):visible').waitFor();
}

/** Loads the page anew, as after closing the browser and opening it. */
export async function openAgain(page) {
  await page.reload();
  await untilShown(page);
}

/** Asks a second core, which knows what the page has kept, and changes nothing. */
export async function askCore(page, what, fields = {}) {
  const reply = await page.evaluate(async ([ask, more]) => {
    window.core ??= await startFootroom();
    const choice = JSON.parse(localStorage.getItem('footroom-practice-choice') ?? '{}');
    return window.core.ask({
      ask,
      language: document.documentElement.lang,
      units: choice.units ?? 'us',
      progress: localStorage.getItem('footroom-practice') ?? '',
      ...more,
    });
  }, [what, fields]);
  const wrong = reply.error ?? reply.fault;
  assert.equal(wrong, undefined, `${what}: ${wrong}`);
  return reply;
}

/**
 * Opens the page anew at a question of the wanted kind, as if it had come up by chance, and returns
 * the question. The progress before is gone. wanted: {kind, units, inUnit, leastSteps}.
 */
export async function openQuestionOf(page, wanted) {
  const progress = await page.evaluate(async ({kind, units = 'us', inUnit, leastSteps = 0}) => {
    window.core ??= await startFootroom();
    const language = document.documentElement.lang;
    for (let seed = 1; seed <= 1000; ++seed) {
      const {question, progress} = window.core.ask(
          {ask: 'question', language, units, seed: String(seed), topics: [], levels: []});
      if (question.kind === kind && question.steps >= leastSteps &&
          (inUnit === undefined || question.unit === inUnit)) {
        localStorage.setItem('footroom-practice', progress);
        return progress;
      }
    }
    return '';
  }, wanted);
  assert.notEqual(progress, '', `no question is ${JSON.stringify(wanted)}`);
  await openAgain(page);
  await page.locator('#answer-form:visible').waitFor();
  return openQuestion(page);
}

/** The open question as the core tells it. */
export async function openQuestion(page) {
  return (await askCore(page, 'current')).question;
}

/** What the core says to the open question when nothing is answered: the right answer is in it. */
async function solution(page) {
  return (await askCore(page, 'mark', {typed: ''})).feedback;
}

/** What is right for the open question: a text to type, or letters. */
export async function rightAnswer(page, question) {
  const {options, ...told} = await solution(page);
  if (question.kind === 'number') {
    return told['right-text'];
  }
  return question.kind === 'order' ? inOrder(options) :
                                     options.filter(one => one.right).map(one => one.letter);
}

function inOrder(options) {
  return [...options].sort((one, other) => one.place - other.place).map(one => one.letter);
}

/**
 * Something wrong, and what the page must then say of it: {answer, says}. For a number a mistake
 * with a name where the question knows one; says is '' where nothing is known to be said.
 */
export async function wrongAnswer(page, question) {
  const {options, others} = await solution(page);
  switch (question.kind) {
    case 'number':
      return others.length > 0 ? {answer: others[0].text, says: await plain(page, others[0])} :
                                 {answer: '987654', says: ''};
    case 'order':
      return {answer: inOrder(options).reverse(), says: ''};
    case 'several-of': {
      const wrong = options.find(one => !one.right) ?? options[0];
      return {answer: [wrong.letter], says: ''};
    }
    default: {
      const wrong = options.find(one => !one.right);
      return {answer: [wrong.letter], says: await plain(page, wrong)};
    }
  }
}

/** Markup as the words that a reader sees. */
async function plain(page, {'says-html': html}) {
  return page.evaluate(markup => {
    const place = document.createElement('div');
    place.innerHTML = markup;
    return place.textContent.trim();
  }, html ?? '');
}

/** A hand that touches, for answering; see also keyboardHand. */
export const touchingHand = {
  press: async locator => locator.tap(),
  write: async (locator, text) => {
    await locator.tap();
    await locator.fill(text);
  },
  check: async locator => locator.tap(),
};

/** A hand that only has keys: goes to its aim with Tab, and presses Enter, Space or an arrow. */
export function keyboardHand(page) {
  const isThere = locator => locator.evaluate(element => element === document.activeElement);
  const goTo = async locator => {
    for (let step = 0; step < 200; ++step) {
      if (await isThere(locator)) {
        return;
      }
      await page.keyboard.press('Tab');
    }
    throw new Error(`Tab does not reach ${locator}`);
  };
  // Tab stops once in a group of radio buttons: at the chosen one, or the first or last.
  const goToRadio = async locator => {
    const group = locator.locator('xpath=ancestor::fieldset[1]').locator('input[type=radio]');
    for (let step = 0; step < 200; ++step) {
      if (await group.evaluateAll(all => all.includes(document.activeElement))) {
        break;
      }
      await page.keyboard.press('Tab');
    }
    for (let step = 0; step < 20 && !await isThere(locator); ++step) {
      await page.keyboard.press('ArrowDown');
    }
    assert(await isThere(locator), 'arrows reach the option');
    await page.keyboard.press('Space');
  };
  return {
    press: async locator => {
      await goTo(locator);
      await page.keyboard.press('Enter');
    },
    write: async (locator, text) => {
      await goTo(locator);
      await page.keyboard.press('Control+a');
      await page.keyboard.type(text);
    },
    check: async locator => {
      if (await locator.getAttribute('type') === 'radio') {
        await goToRadio(locator);
      } else {
        await goTo(locator);
        await page.keyboard.press('Space');
      }
    },
  };
}

/** Fills the answer in, without handing it in. */
export async function fillIn(page, hand, question, answer) {
  if (question.kind === 'number') {
    await hand.write(page.locator('#answer'), answer);
  } else if (question.kind === 'order') {
    await putInOrder(page, hand, answer);
  } else {
    for (const letter of answer) {
      await hand.check(page.locator(`input[name=option][value="${letter}"]`));
    }
  }
}

async function putInOrder(page, hand, letters) {
  const shown = () => page.locator('#order .letter').allTextContents();
  for (let place = 0; place < letters.length; ++place) {
    while ((await shown()).indexOf(letters[place]) > place) {
      await hand.press(page.locator(`[data-move="${letters[place]}-1"]`));
    }
  }
  assert.deepEqual(await shown(), letters);
}

/** Hands the answer in, and returns what the page then shows: {mark, heading, said}. */
export async function handIn(page, hand) {
  await hand.press(page.locator('#answer-buttons button'));
  return verdict(page);
}

/** What the page shows of the marked question, where the focus must then be. */
export async function verdict(page) {
  await page.locator('#verdict:visible').waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.id), 'verdict-title');
  return {
    mark: await page.locator('#verdict').getAttribute('class'),
    heading: await page.locator('#verdict-title').textContent(),
    said: await page.locator('#verdict').innerText(),
  };
}

/** Goes on from a verdict; the focus must then be on the new question's heading. */
export async function goOn(page, hand) {
  await hand.press(page.locator('#verdict-buttons .main'));
  await page.locator('#answer-form:visible').waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.id), 'question-title');
}

/** Shows all steps, opens everything that can be opened. */
export async function openEverything(page) {
  const right = page.locator('#show-right');
  if (await right.isVisible()) {
    await right.click();
  }
  while (await page.locator('#show-step').isVisible()) {
    await page.locator('#show-step').click();
  }
  for (const summary of await page.locator('main details:visible > summary').all()) {
    if (!await summary.evaluate(one => one.parentElement.open)) {
      await summary.click();
    }
  }
}

/** What is wrong with the page as it stands: for axe, by width, and for a thumb. */
export async function faults(page) {
  const overflow = await sidewaysOverflow(page);
  return [
    ...await accessibilityFaults(page),
    ...await tooSmallForAThumb(page),
    ...(overflow > 0 ? [`wider than the window by ${overflow} pixels`] : []),
  ];
}

/** What can be pressed and is narrower or lower than 44 pixels; a box counts with its label. */
async function tooSmallForAThumb(page) {
  return page.evaluate(() => {
    const small = [];
    for (const one of document.querySelectorAll('a, button, input, select, summary')) {
      const target = one.matches('[type=checkbox], [type=radio]') ? one.closest('label') : one;
      const {width, height} = target.getBoundingClientRect();
      const seen = width > 0 && height > 0 && !one.matches('.skip');
      // Layout gives fractions of a pixel.
      if (seen && (width < 43.9 || height < 43.9)) {
        small.push(`${Math.round(width)} x ${Math.round(height)}: ${one.outerHTML.slice(0, 120)}`);
      }
    }
    return small;
  });
}
