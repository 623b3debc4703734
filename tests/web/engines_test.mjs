// The whole exchange in Firefox and in WebKitGTK: slip, QR code, answer, draft, each side in a browser of its own; and then
// the whole main job through roles and names, from a new ticket to printed sheets and ticked steps. What
// Playwright's Chromium is asked in exchange_test.mjs is not asked again; here it counts that the other engines run it.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

import { kA2, lamp } from './cloth.mjs';
import { measured, run } from './printed.mjs';
import { read_qr } from './qr.mjs';
import { serve } from './studio_page.mjs';
import { dog, kAsked } from './exchange.mjs';
import { main_job } from './main_job.mjs';
import { firefox, webkit } from './webdriver.mjs';

// These run in the page.
const ready = () => document.documentElement.dataset.ready === 'yes';
const press = (name) => {
  const found = [...document.querySelectorAll('button')].find((e) => (e.getAttribute('aria-label') ?? e.textContent).startsWith(name) && !e.disabled);
  if (found) found.click();
  return Boolean(found);
};
const says = (words) => [...document.querySelectorAll('#mirror p, [role=status]')].some((e) => e.textContent.includes(words));
const labelled = (name) => [...document.querySelectorAll('button')].map((e) => e.getAttribute('aria-label')).find((label) => label?.startsWith(name)) ?? '';
const link_shown = () => document.querySelector('[role=img][aria-label^="QR code"]')?.textContent;
const watch = () => { window.faults = []; addEventListener('error', (e) => window.faults.push(e.message)); addEventListener('securitypolicyviolation', (e) => window.faults.push(e.violatedDirective)); };

async function open(browser, url) {
  await browser.goto(url);
  await browser.until(ready);
  await browser.run(watch);
}

// Does the work in the studio of an engine that stands at Print; the page must have logged no fault.
async function at_print(start, site, work) {
  const server = await serve(site);
  const browser = await start();
  try {
    await browser.resize(1180, 940);
    await open(browser, server.url);
    await browser.until(press, 'Print');
    await work(browser, server.url);
    assert.deepEqual(await browser.run(() => window.faults), []);
  } finally {
    await browser.close();
    server.stop();
  }
}

// The client's side, typed on the keyboard of a small window.
async function answer(browser, link) {
  await browser.resize(420, 860);
  await open(browser, link);
  await browser.until(press, 'Inches');
  for (const [name, readings] of Object.entries(kAsked)) {
    await browser.until((heading) => document.getElementById('name').textContent === heading, name);
    for (const [i, text] of readings.entries()) await browser.type(`#readings label:nth-of-type(${i + 1}) input`, text);
    await browser.run(() => document.getElementById('next').click());
  }
  const message = await browser.until(() => document.getElementById('message').value);
  assert.deepEqual(await browser.run(() => window.faults), []);
  return message.split('\n').at(-1);
}

async function exchange(start, site) {
  const server = await serve(site);
  const studio = await start();
  let client;
  try {
    await studio.resize(1180, 940);
    await open(studio, server.url);
    await studio.run((text) => {
      const data = new DataTransfer();
      data.items.add(new File([text], 'ticket.json', { type: 'application/json' }));
      document.getElementById('canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    }, JSON.stringify(dog()));
    await studio.until(says, 'Opened: Bosun');
    await studio.until(press, 'Measuring slip');
    const link = await studio.until(link_shown);
    await studio.run(() => new Promise((resolve) => { requestAnimationFrame(() => requestAnimationFrame(resolve)); }));
    assert.equal(read_qr(await studio.screenshot()), link, 'what zbar reads from the screen');
    client = await start();
    const back = await answer(client, link);
    await studio.run((to) => { location.href = to; }, back);
    await studio.until(says, 'Neck girth: not taken on the ticket, 16⅞ in from the client');
    assert.equal(await studio.run(() => location.hash), '');
    await studio.until(press, 'Take 2 measures');
    await studio.until(says, 'Taken: the client’s readings stand on Bosun');
    assert.match(await studio.run(labelled, 'Neck girth'), /16⅞ in/);
    await studio.until(press, 'Draft');
    await studio.until(says, 'All measured, all seams close');
    assert.deepEqual(await studio.run(() => window.faults), []);
    // It opens again by itself, with what was taken.
    await studio.run(() => coatwright.stored());
    await open(studio, server.url);
    await studio.until((name) => [...document.querySelectorAll('button')].some((e) => e.getAttribute('aria-label')?.startsWith(name)), 'Neck girth');
    assert.match(await studio.run(labelled, 'Neck girth'), /16⅞ in/);
    await main_job({
      run: (body) => studio.send('script', { script: body, args: [] }),
      again: async () => {
        await studio.goto(server.url);
        await studio.until(ready);
      },
    });
  } finally {
    await client?.close();
    await studio.close();
    server.stop();
  }
}

// ---- files -----------------------------------------------------------------------------------------------------------

function files_in(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath ?? entry.path, entry.name));
}

// On an engine that does not print a page in its own size the PDF comes first, with the reason and the paper to choose; and it is saved.
async function pdf_first(browser) {
  const keys = await browser.until(() => {
    const labels = [...document.querySelectorAll('#mirror button')].map((e) => e.getAttribute('aria-label'));
    return labels.includes('Save as PDF') && labels.slice(labels.indexOf('Save as PDF') - 1);
  });
  assert.ok(keys.indexOf('Save as PDF') < keys.lastIndexOf('Print'), keys.join());
  const hint = await browser.until(() => [...document.querySelectorAll('#mirror p')].map((e) => e.textContent).find((text) => /PDF/.test(text) && /letter/i.test(text)));
  assert.match(hint, /100 %/);
  await browser.until(press, 'Save as PDF');
  let pdf = null;
  for (const end = Date.now() + 40000; !pdf; await new Promise((resolve) => { setTimeout(resolve, 200); })) {
    assert.ok(Date.now() < end, `no PDF in ${files_in(browser.household.folder).length} files`);
    pdf = files_in(browser.household.folder).find((file) => /bosun-sheets\.pdf$/.test(file) && readFileSync(file).subarray(-16).includes('%%EOF'));
  }
  run('qpdf', '--check', pdf);
  const { check_x: [across] } = measured(pdf, 215.9, 279.4, 12.7, 15).pages[0];
  assert.ok(Math.abs(across - 100) <= 0.01, `${across} mm`);
}

// ---- the cutting table -------------------------------------------------------------------------------------------------

const picked = (id) => document.getElementById(id).click();
const typed = (id, text) => {
  const field = document.getElementById(id);
  field.value = text;
  field.dispatchEvent(new Event('input', { bubbles: true }));
};
const stands_at = (where) => document.body.dataset.at === where;
const drawn = () => document.getElementById('picture').dataset.drawn;
const pin_at = (n) => document.getElementById(`pin-${n}`).getAttribute('aria-label').match(/: ([\d.]+) across, ([\d.]+) down/).slice(1).map(Number);
const keys_on_pin = (n, key, times, shiftKey) => {
  const pin = document.getElementById(`pin-${n}`);
  for (let i = 0; i < times; i += 1) pin.dispatchEvent(new KeyboardEvent('keydown', { key, shiftKey, bubbles: true, cancelable: true }));
};
// Middles of the picture's pixels that are nearly white, in CSS px.
const white = () => {
  const picture = document.getElementById('picture'), { width, height } = picture;
  const { data } = picture.getContext('2d').getImageData(0, 0, width, height);
  const out = [];
  for (let i = 0; i < data.length; i += 4) {
    if (Math.min(data[i], data[i + 1], data[i + 2]) > 150) out.push(((i / 4) % width + 0.5) * innerWidth / width, (Math.floor(i / 4 / width) + 0.5) * innerHeight / height);
  }
  return out;
};
async function at_rest(browser) {
  for (let before = null; ;) {
    const now = await browser.run(drawn);
    if (now && now === before) return;
    before = now;
    await new Promise((resolve) => { setTimeout(resolve, 150); });
  }
}

// Pins moved by keys onto the corners that a tilted projector would show, and the square measured by its rays.
async function lights_the_table(browser, url) {
  await browser.until(press, 'On cloth');
  await browser.until(press, 'Light the cutting table');
  await browser.until(() => sessionStorage.getItem('coatwright-table') !== null);
  await browser.goto(new URL('cloth.html', url).href);
  await browser.until(ready);
  await browser.run(watch);
  await browser.run(typed, 'wide', `${kA2[0]} mm`);
  await browser.run(typed, 'high', `${kA2[1]} mm`);
  await browser.run(picked, 'begin');
  await browser.until(stands_at, 'set-up');
  const [width, height, ratio] = await browser.run(() => [innerWidth, innerHeight, devicePixelRatio]);
  const light = lamp(kA2, 12, -8, { width, height });
  for (const [i, corner] of light.corners.entries()) {
    for (const [axis, [less, more]] of [['ArrowLeft', 'ArrowRight'], ['ArrowUp', 'ArrowDown']].entries()) {
      const way = (corner[axis] - (await browser.run(pin_at, i + 1))[axis]) * ratio, key = way < 0 ? less : more;
      const far = Math.floor(Math.abs(way) / 10);
      await browser.run(keys_on_pin, i + 1, key, far, true);
      await browser.run(keys_on_pin, i + 1, key, Math.round(2 * (Math.abs(way) - 10 * far)), false);
    }
  }
  await at_rest(browser);
  await browser.run(picked, 'to-check');
  await browser.until(stands_at, 'check');
  await at_rest(browser);
  const flat = await browser.run(white), points = [];
  for (let i = 0; i < flat.length; i += 2) points.push(light.to_table([flat[i], flat[i + 1]]));
  // Each side's middle line, where the diagonals are far.
  const side = (axis, sign) => {
    const [middle, other] = [kA2[axis] / 2, kA2[1 - axis] / 2];
    const near = points.filter((p) => Math.abs(p[1 - axis] - other) < 90 && sign * (p[axis] - middle) > 110).map((p) => p[axis]);
    assert.ok(near.length > 60, `${near.length} pixels of a side`);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  };
  const across = side(0, 1) - side(0, -1), along = side(1, 1) - side(1, -1);
  assert.ok(Math.abs(across - along) < 0.8, `${across} × ${along} mm`);
  for (const [id, mm] of [['across', across], ['along', along], ['diagonal', Math.hypot(across, along)]]) await browser.run(typed, id, `${mm.toFixed(2)} mm`);
  await browser.run(picked, 'judge');
  await browser.until(() => /True within 1 mm/.test(document.getElementById('verdict').textContent));
  await browser.run(picked, 'to-show');
  await browser.until(stands_at, 'show');
  await at_rest(browser);
  assert.ok((await browser.run(white)).length > 100, 'the lay is lit');
}

async function asked_again(browser) {
  await browser.to_front();
  await browser.resize(1100, 900);
  await browser.until(stands_at, 'check');
  await browser.until(() => /The window has changed/.test(document.getElementById('verdict').textContent));
}

async function lights_and_asks_again(browser, url) {
  await lights_the_table(browser, url);
  await asked_again(browser);
}

export default {
  'Firefox offers the PDF before Print and saves it at true scale': (_, site) => at_print(firefox, site, pdf_first),
  'WebKitGTK offers the PDF before Print and saves it at true scale': (_, site) => at_print(webkit, site, pdf_first),
  'Firefox lights the cutting table true, and asks again when its window changes': (_, site) => at_print(firefox, site, lights_and_asks_again),
  'WebKitGTK lights the cutting table true, and asks again when its window changes': (_, site) => at_print(webkit, site, lights_and_asks_again),
  'Firefox does the whole exchange with a second Firefox, and the whole main job': (_, site) => exchange(firefox, site),
  'WebKitGTK does the whole exchange with a second WebKitGTK, and the whole main job': (_, site) => exchange(webkit, site),
};
