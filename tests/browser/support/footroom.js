import {execFileSync} from 'node:child_process';
import {mkdtempSync, rmSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {join} from 'node:path';
import {fileURLToPath} from 'node:url';

/** The folder of the sources. */
export const project = fileURLToPath(new URL('../../..', import.meta.url));

/** The program that is tested. */
export const program = process.env.FOOTROOM_PROGRAM ?? join(project, 'build/release/footroom');

/** Runs the program with these arguments and returns what it printed; throws if it fails. */
export function footroom(...words) {
  return execFileSync(program, words, {encoding: 'utf8', maxBuffer: 1 << 28});
}

const folders = [];
process.on('exit', () => folders.forEach(folder => rmSync(folder, {recursive: true, force: true})));

/** A folder of its own under the system's temporary folder, removed when the process ends. */
export function temporaryFolder() {
  folders.push(mkdtempSync(join(tmpdir(), 'footroom-browser-')));
  return folders.at(-1);
}

/** The four pairs of language and units. */
export const everyEdition = ['en', 'es'].flatMap(
    language => ['us', 'si'].map(units => ({language, units})));

/** The options that ask the program for an edition. */
export function editionOptions({language, units}) {
  return ['--language', language, '--units', units];
}
