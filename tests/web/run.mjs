// node run.mjs SITE [WORDS]: runs every *_test.mjs beside it against the built site, or only the tests whose name has
// WORDS in it, and prints 'ok NAME' or 'FAIL NAME' for each.
//
// Two processes, each with a browser and a port of its own (one_browser.mjs), take the next test as soon as they are done
// with one; so both end together, and no test may lean on another. A third takes those that mostly wait: they hardly work.
//
// A test that fails is tried once more on a fresh page, because a busy machine can let two taps come too far apart or a
// wait run out; what the first try said is printed all the same. It is told as 'ok NAME (second try)', and more than two of
// those in a run are a failure: then it is not the machine.
//
// A test whose name begins with 'known fault: ' shows a fault of the studio that is still open. It runs and is told as
// 'known' while it fails; who mends the fault takes the mark away.
//
// A test file's default export maps each test's name, a sentence, to async (visitor, site folder) => {}.
import { fork } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const kProcesses = 2;
const kSecondTries = 2;  // so many may be in a run
const kLongest = ['engines_test.mjs', 'kill_test.mjs', 'print_test.mjs'];  // begun first, so that nobody waits for them at the end
const kWaiting = ['alone_test.mjs'];
const site = resolve(process.argv[2]);
const words = process.argv[3] ?? '';

async function tests_in(file) {
  const { default: tests } = await import(`./${file}`);
  return Object.keys(tests).map((sentence) => ({ file, sentence, name: `${file.replace('_test.mjs', '')}: ${sentence}` }));
}

// One process takes tests from the queue until it is empty. If it ends over one, that one has failed and another process goes on.
function work_off(queue, done) {
  return new Promise((idle) => {
    const worker = fork(fileURLToPath(new URL('one_browser.mjs', import.meta.url)), [site]);
    let test = null;
    const next = () => {
      test = queue.shift() ?? null;
      if (test) worker.send(test);
      else worker.disconnect();  // it closes its browser and ends
    };
    worker.on('message', (answer) => {
      if (test) done(test, answer);
      next();
    });
    worker.on('exit', async (code, signal) => {
      if (test) {
        done(test, { tries: 1, passed: false, said: `the process of its browser ended with ${signal ?? code}`, ms: 0 });
        await work_off(queue, done);
      }
      idle();
    });
  });
}

const files = readdirSync(new URL('.', import.meta.url)).filter((file) => file.endsWith('_test.mjs')).sort();
const in_order = [...files.filter((file) => kLongest.includes(file)), ...files.filter((file) => !kLongest.includes(file))];
const tests = (await Promise.all(in_order.map(tests_in))).flat().filter((test) => test.name.includes(words));
const took = [];
let failed = 0;
let second_tries = 0;
const done = ({ name, sentence }, { tries, passed, said, ms }) => {
  if (said) console.log(said);
  const known = sentence.startsWith('known fault: ');
  if (!passed && !known) failed += 1;
  const second = passed && tries > 1;
  if (second) second_tries += 1;
  console.log(`${passed ? 'ok' : known ? 'known' : 'FAIL'} ${name}${second ? ' (second try)' : ''}`);
  took.push({ name, ms });
};
const waiting = tests.filter((test) => kWaiting.includes(test.file));
const queue = tests.filter((test) => !waiting.includes(test));
const workers = Array.from({ length: Math.min(kProcesses, queue.length) }, () => work_off(queue, done));
if (waiting.length > 0) workers.push(work_off(waiting, done));
await Promise.all(workers);

took.sort((a, b) => b.ms - a.ms);
console.log(`the longest: ${took.slice(0, 8).map(({ name, ms }) => `\n  ${(ms / 1000).toFixed(1)} s ${name}`).join('')}`);
console.log(`${tests.length - failed} of ${tests.length} browser tests passed, ${second_tries} of them at the second try`);
if (second_tries > kSecondTries) console.log(`FAIL ${second_tries} browser tests passed at the second try only; at most ${kSecondTries} may`);
process.exit(failed === 0 && second_tries <= kSecondTries && took.length > 0 && took.length === tests.length ? 0 : 1);
