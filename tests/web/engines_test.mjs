// The whole exchange in Firefox and in WebKitGTK: slip, QR code, answer, draft, each side in a browser of its own; and then
// the whole main job through roles and names, from a new ticket to printed sheets and ticked steps. What
// Playwright's Chromium is asked in exchange_test.mjs is not asked again; here it counts that the other engines run it.
import assert from 'node:assert/strict';

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

export default {
  'Firefox does the whole exchange with a second Firefox, and the whole main job': (_, site) => exchange(firefox, site),
  'WebKitGTK does the whole exchange with a second WebKitGTK, and the whole main job': (_, site) => exchange(webkit, site),
};
