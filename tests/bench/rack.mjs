// node rack.mjs SITE [TICKETS] [ROUNDS] [photographs]: what a busy rack costs the page in headless Chromium: of each deed, the longest task
// of the page's main thread in CPU time (not time on the clock, so that a busy machine tells little otherwise), all of its
// tasks together, and the time on the clock. Of each figure the quietest of the rounds. What draws does nothing meanwhile.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

import { meter } from '../web/meter.mjs';
import { put_photographs } from '../web/photographs.mjs';
import { Studio, until } from '../web/studio.mjs';
import { real_devices, launch, serve } from '../web/studio_page.mjs';
import { backup_file, busy_rack } from '../web/tickets.mjs';

const [site, tickets = 5000, rounds = 3] = [resolve(process.argv[2]), ...process.argv.slice(3, 5).map(Number)];
const pictured = process.argv[5] === 'photographs';  // each ticket has one, of 100 kB
const kPatience = 300000;
const figures = new Map();

function note(what, { longest, all, clock }) {
  const before = figures.get(what) ?? { longest: Infinity, all: Infinity, clock: Infinity };
  figures.set(what, { longest: Math.min(longest, before.longest), all: Math.min(all, before.all), clock: Math.min(clock, before.clock) });
}

// CPU milliseconds of each task of the page's main thread while `deed` was done.
async function traced(browser, page, what, deed) {
  await browser.startTracing(page, { categories: ['toplevel', 'disabled-by-default-devtools.timeline', '__metadata'] });
  const from = performance.now();
  const clock = (await deed()) ?? performance.now() - from;
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString());
  const mains = new Set(traceEvents.filter((e) => e.name === 'thread_name' && e.args.name === 'CrRendererMain').map((e) => `${e.pid} ${e.tid}`));
  const tasks = traceEvents.filter((e) => e.ph === 'X' && /RunTask$/.test(e.name) && mains.has(`${e.pid} ${e.tid}`) && e.tdur !== undefined);
  const ms = tasks.map((e) => e.tdur / 1000);
  if (ms.length === 0) throw new Error('no task was traced');
  note(what, { longest: Math.max(...ms), all: ms.reduce((a, b) => a + b, 0), clock });
}

async function put_back(studio, path, words) {
  await studio.put_back(path);
  await until(async () => (await studio.statuses()).some((text) => words.test(text)), kPatience);
}
const open_rack = async (studio) => {
  await studio.press('button', /^Ticket: /);
  await until(() => studio.has('heading', 'The rack'));
};
const whole = (studio) => until(async () => !(await studio.statuses()).some((text) => /^Looking through/.test(text)), kPatience);
// Milliseconds on the page's own clock from a press to the first card.
const first_card = (studio) => studio.page.evaluate(async () => {
  const from = performance.now();
  document.querySelector('#mirror [data-id="ticket"]').click();
  while (!document.querySelector('#mirror [role="listitem"]')) await new Promise(requestAnimationFrame);
  return performance.now() - from;
});

async function round(browser, url, file) {
  const context = await browser.newContext(real_devices.tablet);
  context.setDefaultTimeout(kPatience);
  const page = await context.newPage();
  await page.addInitScript(meter);
  const studio = new Studio(page);
  const ready = async () => {
    await studio.ready();
    await page.evaluate(() => { window.meter.timing = true; });
  };
  const drawn = (what, deed) => traced(browser, page, what, deed);
  await page.goto(url);
  await ready();
  await drawn('opening the page, one ticket', async () => { await page.reload(); await ready(); });
  await open_rack(studio);
  await drawn('putting back', () => put_back(studio, file, /came back: /));
  await drawn('writing it to the store', async () => { await page.evaluate(() => window.coatwright.stored()); });
  for (let i = 0; i < photographs.length; i += 100) await put_photographs(page, photographs.slice(i, i + 100));
  await drawn('putting back a second time', () => put_back(studio, file, /Nothing has changed/));
  await drawn('opening the page', async () => { await page.reload(); await ready(); });
  await page.reload();
  await ready();
  await drawn('first cards', () => first_card(studio));
  await drawn('reading the rest', () => whole(studio));
  await drawn('finding, four letters', async () => {
    await studio.control('textbox', 'Find').focus();
    await page.keyboard.type('wind', { delay: 60 });
    await until(() => studio.has('button', /^Open \S*wind/i), kPatience);
  });
  await studio.control('textbox', 'Find').fill('');
  await drawn('sorting', async () => {
    await studio.press('radio', 'dog’s name');
    await until(() => studio.has('button', /^Open Bollard 000/), kPatience);
  });
  await page.evaluate(() => document.activeElement.blur());
  await drawn('scrolling, 60 pages', async () => {
    for (let i = 0; i < 60; i += 1) await page.keyboard.press('PageDown');
    await page.keyboard.press('End');
  });
  await drawn('saving', async () => {
    const download = page.waitForEvent('download');
    await studio.press('button', 'Save a backup');
    await (await download).path();
  });
  note('elements of the mirror', { longest: NaN, all: NaN, clock: await page.evaluate(() => document.querySelectorAll('#mirror *').length) });
  await context.close();
}

const rack = busy_rack(tickets);
const photographs = (pictured ? rack.tickets : []).map((card, i) => {
  const id = `Ph0t${String(i).padStart(4, '0')}`;
  card.ticket.fittings = [{ notes: [], photographs: [{ id, width: 1280, height: 960 }] }];
  return { ticket: card.id, id, bytes: Buffer.alloc(100e3, i).toString('base64') };
});
const backup = backup_file(rack);
const folder = mkdtempSync(join(tmpdir(), 'coatwright-rack-'));
const file = join(folder, 'rack.json');
writeFileSync(file, backup);
const server = await serve(site);
const browser = await launch();
for (let i = 0; i < rounds; i += 1) await round(browser, server.url, file);
await browser.close();
server.stop();
rmSync(folder, { recursive: true });
console.log(`${tickets} tickets, ${(backup.length / 1e6).toFixed(1)} MB, the quietest of ${rounds} rounds`);
console.log(`${'deed'.padEnd(32)}${'longest task, CPU ms'.padStart(22)}${'all tasks, CPU ms'.padStart(20)}${'clock, ms'.padStart(12)}`);
const cell = (value, width) => (Number.isNaN(value) ? '' : value.toFixed(0)).padStart(width);
for (const [what, { longest, all, clock }] of figures) console.log(what.padEnd(32) + cell(longest, 22) + cell(all, 20) + cell(clock, 12));
console.log(`${cpus().length} × ${cpus()[0].model}, load ${loadavg()[0].toFixed(1)}, Node.js ${process.version}`);
