// node run.mjs SITE [WORDS]: runs every *_test.mjs beside it against the built site, or only the tests whose name has
// WORDS in it, and prints 'ok NAME' or 'FAIL NAME' for each.
//
// A test that fails is tried once more on a fresh page, because a busy machine can let two taps come too far apart or a
// wait run out; what the first try said is printed all the same.
//
// A test whose name begins with 'known fault: ' shows a fault of the studio that is still open. It runs and is told as
// 'known' while it fails; who mends the fault takes the mark away.
//
// A test file's default export maps each test's name, a sentence, to async (visitor, site folder) => {}.
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';

import { launch, serve, Visitor } from './studio_page.mjs';

const kLimitMs = 120000;
const site = resolve(process.argv[2]);
const words = process.argv[3] ?? '';

async function within(limit_ms, work) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error(`not done after ${limit_ms / 1000} s`)), limit_ms);
  });
  try {
    await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}

async function tried(name, test) {
  const visitor = new Visitor(browser, server.url);
  try {
    await within(kLimitMs, test(visitor, site));
    if (visitor.faults.length > 0) throw new Error(`on the page:\n  ${visitor.faults.join('\n  ')}`);
    return true;
  } catch (error) {
    console.log(`a try of "${name}" failed:\n${error.stack ?? error}`);
    return false;
  } finally {
    await visitor.leave();
  }
}

const server = await serve(site);
const browser = await launch();
let failed = 0;
let ran = 0;
for (const file of readdirSync(new URL('.', import.meta.url)).sort()) {
  if (!file.endsWith('_test.mjs')) continue;
  const { default: tests } = await import(`./${file}`);
  for (const [sentence, test] of Object.entries(tests)) {
    const name = `${file.replace('_test.mjs', '')}: ${sentence}`;
    if (!name.includes(words)) continue;
    ran += 1;
    const known = sentence.startsWith('known fault: ');
    const passed = (await tried(name, test)) || (!known && await tried(name, test));
    if (!passed && !known) failed += 1;
    console.log(`${passed ? 'ok' : known ? 'known' : 'FAIL'} ${name}`);
  }
}
await browser.close();
server.stop();
console.log(`${ran - failed} of ${ran} browser tests passed`);
process.exit(failed === 0 && ran > 0 ? 0 : 1);
