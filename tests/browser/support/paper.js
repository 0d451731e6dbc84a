// What came out on paper, read back from the PDF by poppler.

import {execFileSync} from 'node:child_process';

/** The sizes of paper in points. */
export const paperSizes = {letter: {width: 612, height: 792}, a4: {width: 595.28, height: 841.89}};

function run(program, ...words) {
  return execFileSync(program, words, {maxBuffer: 1 << 30});
}

/** The text of each page, line by line as it was set. */
export function pageTexts(pdf) {
  return run('pdftotext', '-raw', pdf, '-').toString().split('\f').slice(0, -1);
}

/** The pages, each as {width, height, words}, a word as {text, left, top, right, bottom}, points. */
export function pageWords(pdf) {
  const number = (attributes, name) => Number(attributes.match(`${name}="([^"]*)"`)[1]);
  return run('pdftotext', '-bbox', pdf, '-').toString().split('<page ').slice(1).map(page => {
    const words = [...page.matchAll(/<word ([^>]*)>([^<]*)<\/word>/g)].map(([, at, text]) => ({
      text,
      left: number(at, 'xMin'), top: number(at, 'yMin'),
      right: number(at, 'xMax'), bottom: number(at, 'yMax'),
    }));
    return {width: number(page, 'width'), height: number(page, 'height'), words};
  });
}

/** Pictures of the pages, each {width, height, pixels}, three bytes a pixel. */
export function pagePictures(pdf, dotsPerInch) {
  const all = run('pdftoppm', '-r', String(dotsPerInch), pdf);
  const pictures = [];
  for (let at = 0; at < all.length;) {
    const [head, width, height] =
        all.subarray(at, at + 40).toString('latin1').match(/^P6\n(\d+) (\d+)\n255\n/);
    const begin = at + head.length;
    at = begin + width * height * 3;
    pictures.push({width: Number(width), height: Number(height), pixels: all.subarray(begin, at)});
  }
  return pictures;
}

/** The upright boxes around each connected patch of the pixels that `chosen(red, green, blue)`. */
export function patches({width, height, pixels}, chosen) {
  const seen = new Uint8Array(width * height);
  const wanted = place => chosen(...pixels.subarray(place * 3, place * 3 + 3));
  const found = [];
  for (let start = 0; start < seen.length; ++start) {
    if (seen[start] || !wanted(start)) {
      continue;
    }
    seen[start] = 1;
    const waiting = [start];
    const box = {left: width, top: height, right: 0, bottom: 0};
    while (waiting.length) {
      const place = waiting.pop();
      const x = place % width;
      const y = (place - x) / width;
      box.left = Math.min(box.left, x);
      box.right = Math.max(box.right, x + 1);
      box.top = Math.min(box.top, y);
      box.bottom = Math.max(box.bottom, y + 1);
      for (const [dx, dy] of [[-1, 0], [1, 0], [0, -1], [0, 1], [-1, -1], [1, 1], [-1, 1], [1, -1]]) {
        const [nx, ny] = [x + dx, y + dy];
        const next = ny * width + nx;
        if (nx >= 0 && nx < width && ny >= 0 && ny < height && !seen[next] && wanted(next)) {
          seen[next] = 1;
          waiting.push(next);
        }
      }
    }
    found.push(box);
  }
  return found;
}
