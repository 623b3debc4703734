// node bench.mjs SITE NATIVE WASM: measures the page in headless Chromium and prints all figures beside their limits.
// NATIVE and WASM are files with the output of pattern_bench.
import { readdirSync, readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join, resolve } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';

import { meter } from '../web/meter.mjs';
import { Studio } from '../web/studio.mjs';
import { real_devices, launch, serve } from '../web/studio_page.mjs';
import { slip_paint } from './slip_paint.mjs';

const [site, native_file, wasm_file] = process.argv.slice(2).map((path) => resolve(path));

function timings(file) {
  const lines = readFileSync(file, 'utf8').trim().split('\n').map((line) => line.match(/^(\S+) (\S+) ?(.*)$/));
  return Object.fromEntries(lines.map(([, id, ms, note]) => [id, { ms: Number(ms), note }]));
}
const sorted = (values) => [...values].sort((a, b) => a - b);
const share = (values, part) => sorted(values)[Math.min(values.length - 1, Math.floor(part * values.length))];
const median = (values) => share(values, 0.5);

const rows = [];
function row(figure, value, unit, limit, how) {
  const digits = unit === 'ms' && value < 100 ? 2 : unit === '×' ? 1 : 0;
  const verdict = limit === null ? '' : value <= limit ? 'ok' : 'OVER';
  rows.push([figure, `${value.toFixed(digits)} ${unit}`, limit === null ? '' : `${limit} ${unit}`, verdict, how]);
}

function core() {
  const native = timings(native_file), wasm = timings(wasm_file);
  row('readings to cut pieces, native', native['cut-pieces'].ms, 'ms', 0.5, native['cut-pieces'].note);
  row('readings to cut pieces, wasm', wasm['cut-pieces'].ms, 'ms', 2, wasm['cut-pieces'].note);
  row('wasm over native', wasm['cut-pieces'].ms / native['cut-pieces'].ms, '×', null, 'the two above');
  row('hardest dog, native', native['cut-pieces-slowest'].ms, 'ms', 0.5, native['cut-pieces-slowest'].note);
  row('hardest dog, wasm', wasm['cut-pieces-slowest'].ms, 'ms', 2, wasm['cut-pieces-slowest'].note);
  row('dogs of all sizes, wasm', wasm['cut-pieces-population'].ms, 'ms', 2, wasm['cut-pieces-population'].note);
  row('options, native', native.options.ms, 'ms', 0.5, native.options.note);
  row('options, wasm', wasm.options.ms, 'ms', 2, wasm.options.note);
  row('slowest options, native', native['options-slowest'].ms, 'ms', 0.5, native['options-slowest'].note);
  row('slowest options, wasm', wasm['options-slowest'].ms, 'ms', 2, wasm['options-slowest'].note);
  row('one fit note, native', native['note-slowest'].ms, 'ms', 0.5, native['note-slowest'].note);
  row('one fit note, wasm', wasm['note-slowest'].ms, 'ms', 2, wasm['note-slowest'].note);
  row('a fitting of everything, native', native['fitting-slowest'].ms, 'ms', 0.5, native['fitting-slowest'].note);
  row('a fitting of everything, wasm', wasm['fitting-slowest'].ms, 'ms', 2, wasm['fitting-slowest'].note);
  row('body form, native', native.form.ms, 'ms', null, native.form.note);
  row('body form, wasm', wasm.form.ms, 'ms', 1, wasm.form.note);
  row('sewing planned and checked, native', native['sewing-plan'].ms, 'ms', 0.3, native['sewing-plan'].note);
  row('sewing planned and checked, wasm', wasm['sewing-plan'].ms, 'ms', 1, wasm['sewing-plan'].note);
  row('readings to sheets, native', native.sheets.ms, 'ms', null, native.sheets.note);
  row('readings to sheets, wasm', wasm.sheets.ms, 'ms', 20, wasm.sheets.note);
}

function transfer() {
  const files = readdirSync(site, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const bytes = files.map((entry) => readFileSync(join(entry.parentPath ?? entry.path, entry.name)));
  const total = (pack) => bytes.reduce((sum, one) => sum + pack(one).length, 0) / 1000;
  row('transfer, gzip -9', total((one) => gzipSync(one, { level: 9 })), 'kB', 1250, `${files.length} files of the site`);
  row('transfer, brotli', total((one) => brotliCompressSync(one)), 'kB', 1250, 'the same files');
}

async function slip(browser, url) {
  const files = readdirSync(site).filter((name) => name.startsWith('slip'));
  const sent = files.reduce((sum, name) => sum + gzipSync(readFileSync(join(site, name)), { level: 6 }).length, 0) / 1000;
  row('slip page, transfer, gzip', sent, 'kB', 100, files.join(', '));
  const ms = await slip_paint(browser, url);
  row('slip page, first paint at 4× CPU throttle', ms.throttled_paint, 'ms', 500, 'from navigation, median of 5 cold starts');
  row('the same, until it can be filled in', ms.throttled_usable, 'ms', null, 'the same visits');
  row('slip page, first paint on slow 3G', ms.slow_paint, 'ms', 1000, 'after the document arrived, median of 5 cold starts');
  row('the same, until it can be filled in', ms.slow_usable, 'ms', null, 'sent uncompressed');
}

async function open(browser, url, { throttle = 1 } = {}) {
  const context = await browser.newContext(real_devices.tablet);
  const page = await context.newPage();
  await page.addInitScript(meter);
  if (throttle > 1) {
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: throttle });
  }
  await page.goto(url);
  const studio = new Studio(page);
  await studio.ready();
  return studio;
}

async function first_drawing(browser, url) {
  const times = [];
  for (let round = 0; round < 5; round += 1) {
    const { page } = await open(browser, url, { throttle: 4 });
    await page.waitForFunction(() => window.meter.first_ms !== null);
    times.push(await page.evaluate(() => window.meter.first_ms));
    await page.context().close();
  }
  row('first drawing at 4× CPU throttle', median(times), 'ms', 1500, 'navigation to first frame shown, median of 5 cold starts');
}

// The page's own code a frame while `move` moves something; what draws does nothing meanwhile.
async function frames_of(studio, from, move) {
  const { page } = studio;
  await studio.rest();
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.evaluate(() => { window.meter.timing = true; window.meter.callbacks.length = 0; });
  for (let i = 1; i <= 120; i += 1) {
    const { x, y } = move(i);
    await page.mouse.move(from.x + x, from.y + y);
  }
  const times = await page.evaluate(() => { window.meter.timing = false; return window.meter.callbacks; });
  await page.mouse.up();
  return times;
}

async function board(browser, url) {
  const studio = await open(browser, url);
  await studio.station('Draft');
  await studio.rest();
  const handle = await studio.middle('slider', 'Hem depth, handle on the board');
  const dragged = await frames_of(studio, handle, (i) => ({ x: 0, y: 12 * Math.sin(i / 8) }));
  row('board frame, dragging a handle', median(dragged), 'ms', 6, `redraft in every frame; median of ${dragged.length}, 1180×820×2`);
  row('the same, 95th percentile', share(dragged, 0.95), 'ms', null, 'the same frames');
  const board = await studio.box('img', /^Board/);
  const corner = { x: board.x + 14, y: board.y + 14 };
  const panned = await frames_of(studio, corner, (i) => ({ x: i, y: 20 * Math.sin(i / 8) }));
  row('board frame, moving the board', median(panned), 'ms', 6, `no redraft; median of ${panned.length}, 1180×820×2`);
  await studio.rest();
  const idle = await studio.page.evaluate(async () => {
    const before = window.meter.frames;
    await new Promise((resolve) => setTimeout(resolve, 3000));
    return window.meter.frames - before;
  });
  row('frames drawn in 3 s at rest', idle, 'frames', 0, 'nothing changes');
}

core();
transfer();
const server = await serve(site);
const browser = await launch();
await first_drawing(browser, server.url);
await board(browser, server.url);
await slip(browser, server.url);
await browser.close();
server.stop();

const widths = rows[0].map((_, column) => Math.max(...rows.map((cells) => cells[column].length)));
const line = (cells) => cells.map((cell, i) => (i === 1 || i === 2 ? cell.padStart(widths[i]) : cell.padEnd(widths[i]))).join('  ').trimEnd();
console.log(line(['figure', 'measured', 'limit', '', 'how taken']));
for (const cells of rows) console.log(line(cells));
console.log(`${cpus().length} × ${cpus()[0].model}, load ${loadavg()[0].toFixed(1)}, Node.js ${process.version}`);
