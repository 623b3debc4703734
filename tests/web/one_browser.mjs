// Started by run.mjs: a browser and a server of the site that run the tests which come as messages, one at a time, and
// answer how each went. It says by a first, empty answer that it is ready, and ends when run.mjs lets go of it.
import { launch, serve, Visitor } from './studio_page.mjs';

const kLimitMs = 120000;
const site = process.argv[2];

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

const server = await serve(site);
const browser = await launch();

// What went wrong, or nothing.
async function fault_of(test) {
  const visitor = new Visitor(browser, server.url);
  try {
    await within(kLimitMs, test(visitor, site));
    return visitor.faults.length > 0 ? `on the page:\n  ${visitor.faults.join('\n  ')}` : null;
  } catch (error) {
    return error.stack ?? String(error);
  } finally {
    await visitor.leave();
  }
}

process.on('message', async ({ file, sentence, name }) => {
  const { default: tests } = await import(`./${file}`);
  const begun = Date.now();
  const faults = [];
  const tries = sentence.startsWith('known fault: ') ? 1 : 2;
  let passed = false;
  while (!passed && faults.length < tries) {
    const fault = await fault_of(tests[sentence]);
    if (fault) faults.push(`a try of "${name}" failed:\n${fault}`);
    passed = !fault;
  }
  process.send({ tries: faults.length + (passed ? 1 : 0), passed, said: faults.join('\n'), ms: Date.now() - begun });
});
process.on('disconnect', async () => {
  await browser.close();
  server.stop();
  process.exit(0);
});
process.send({});
