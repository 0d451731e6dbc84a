// Measures how many pages a desk answers. README.md tells how to run it, and what it gave.

import {spawn} from 'node:child_process';
import {once} from 'node:events';
import {mkdtempSync, rmSync} from 'node:fs';
import http from 'node:http';
import {cpus, tmpdir} from 'node:os';
import {join} from 'node:path';

const program = process.env.FOOTROOM_PROGRAM;
if (!program) throw new Error('FOOTROOM_PROGRAM names no program');
const seconds = Number(process.env.FOOTROOM_SECONDS ?? 5);
const clients = (process.env.FOOTROOM_CLIENTS ?? '1,8,32').split(',').map(Number);
const quizzes = 12;       // of one class
const seats = 24;
const people = 2000;      // in the records

const folder = mkdtempSync(join(tmpdir(), 'footroom-bench-'));
const desk = spawn(program, ['desk', '--no-open', '--folder', join(folder, 'desk')],
                   {stdio: ['ignore', 'pipe', 'inherit']});
const [said] = await once(desk.stdout, 'data');
const address = new URL(String(said).trim());

/** One request with a connection of its own, as the desk closes each: {status, headers, body}. */
function ask(path, {method = 'GET', headers = {}, body} = {}) {
  return new Promise((answered, failed) => {
    const request = http.request(
        {host: address.hostname, port: address.port, path, method, headers, agent: false},
        response => {
          const parts = [];
          response.on('data', part => parts.push(part));
          response.on('end', () => answered({
            status: response.statusCode, headers: response.headers,
            body: Buffer.concat(parts).toString(),
          }));
        });
    request.on('error', failed);
    request.end(body);
  });
}

const opened = await ask(address.pathname + address.search);
const headers = {Cookie: opened.headers['set-cookie'][0].split(';')[0]};

/** Sends the form of a page, as a browser does. */
async function send(page, action, fields) {
  const shown = (await ask(page, {headers})).body;
  const form = shown.slice(shown.indexOf(`action="${action}"`));
  for (const name of ['token', 'once'])
    fields[name] = form.match(new RegExp(`name="${name}" value="([^"]*)"`))[1];
  const sent = await ask(action, {
    method: 'POST', body: new URLSearchParams(fields).toString(),
    headers: {...headers, Origin: address.origin,
              'Content-Type': 'application/x-www-form-urlencoded',
              'Content-Length': Buffer.byteLength(new URLSearchParams(fields).toString())},
  });
  if (sent.status !== 303) throw new Error(`${action}: ${sent.status}`);
  return sent.headers.location;
}

/** Invented: a class with its quizzes, and the people of the records. Returns the last quiz. */
async function furnish() {
  const names = Array.from({length: seats}, (_, i) => `Invented Person ${i + 1}`).join('\n');
  await send('/classes', '/classes', {title: 'Invented crew', names});
  let quiz;
  for (let i = 0; i < quizzes; ++i) {
    quiz = await send('/quizzes/new?class=1', '/quizzes/new', {
      class: '1', 'made-of': 'weekly', date: '2026-11-23', language: 'en', units: 'us',
    });
    while (JSON.parse((await ask(`${quiz}/work`, {headers})).body).running)
      await new Promise(done => setTimeout(done, 100));
  }
  const rows = Array.from({length: people}, (_, i) => `I-${i + 1},Invented Worker ${i + 1},Invented Roofing`);
  await send('/people/import', '/people/import',
             {pasted: ['identity,name,employer', ...rows].join('\n'), 'add-employers': 'yes'});
  return quiz;
}

/** So many clients ask one after another: pages a second and times in milliseconds. */
async function load(path, parallel) {
  const times = [];
  const begin = performance.now();
  const until = begin + seconds * 1000;
  await Promise.all(Array.from({length: parallel}, async () => {
    while (performance.now() < until) {
      const start = performance.now();
      const {status} = await ask(path, {headers});
      if (status !== 200) throw new Error(`${path}: ${status}`);
      times.push(performance.now() - start);
    }
  }));
  const took = performance.now() - begin;
  times.sort((one, other) => one - other);
  const share = part => times[Math.min(times.length - 1, Math.floor(times.length * part))];
  return {rate: times.length / took * 1000, median: share(0.5), late: share(0.99)};
}

try {
  const quiz = await furnish();
  const edgeFall = '/calculations/edge-fall?slope-length=16&pitch=6&d-ring-height=5&slack=4';
  const pages = {
    'start': '/',
    'quizzes': '/quizzes',
    'quiz with its questions': quiz,
    'sheets to print': `${quiz}/sheets`,
    'list of calculations': '/calculations',
    'calculation with drawing': edgeFall,
    'the same with a plot': `${edgeFall}&plot-input=slack&plot-output=free-fall`,
    'arrest in time with its history': '/calculations/arrest-in-time',
    'people of the records': '/people',
    'who is due': '/due',
    'practice page': '/practice',
  };
  console.log(`${cpus().length} cores, ${seconds} s each\n`);
  console.log('| page | kB | clients | pages a second | median | 99 in 100 |');
  console.log('|---|---|---|---|---|---|');
  for (const [name, path] of Object.entries(pages)) {
    const first = await ask(path, {headers});
    if (first.status !== 200) {
      console.error(`${name}: left out, the desk answers ${first.status}`);
      continue;
    }
    const size = Math.round(Buffer.byteLength(first.body) / 1000);
    for (const parallel of clients) {
      const {rate, median, late} = await load(path, parallel);
      console.log(`| ${name} | ${size} | ${parallel} | ${rate.toFixed(0)} | ` +
                  `${median.toFixed(1)} ms | ${late.toFixed(1)} ms |`);
    }
  }
} finally {
  desk.kill('SIGTERM');
  await once(desk, 'exit');
  rmSync(folder, {recursive: true, force: true});
}
