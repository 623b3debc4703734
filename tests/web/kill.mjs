// node kill.mjs SITE TIMES [SEED]: kills the whole browser TIMES times at random moments of editing, starts it again on the
// same profile after each, and looks whether the last change that the page had told as kept is there. Prints figures.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

import { Studio, until } from './studio.mjs';
import { chromium, devices, kBrowser, kBrowserArguments, serve } from './studio_page.mjs';

const pause = (ms) => new Promise((done) => { setTimeout(done, ms); });

// Numbers from 0 to 1 that a seed repeats (mulberry32).
function dice(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

// A browser of its own on a profile, killed with everything that belongs to it.
async function start_browser(profile) {
  const child = spawn(kBrowser, [...kBrowserArguments(), '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`,
    'about:blank'], { detached: true, stdio: ['ignore', 'ignore', 'pipe'] });
  const address = await new Promise((found, failed) => {
    let text = '';
    child.stderr.on('data', (data) => {
      text += data;
      const line = text.match(/DevTools listening on (ws:\S+)/);
      if (line) found(line[1]);
    });
    child.once('exit', () => failed(new Error(`the browser did not start:\n${text}`)));
  });
  const browser = await chromium.connectOverCDP(address);
  const gone = new Promise((done) => { child.once('exit', done); });
  const kill = async () => {
    try { process.kill(-child.pid, 'SIGKILL'); } catch { /* it has ended already */ }
    await gone;
  };
  return { browser, kill };
}

async function open_studio(browser, url) {
  const context = browser.contexts()[0];
  const page = context.pages()[0] ?? await context.newPage();
  await page.setViewportSize(devices.laptop.viewport);
  await page.goto(url);
  const studio = new Studio(page);
  await studio.ready();
  return studio;
}

// What the page shows of the ticket, on every station: its dog, its coat, its unit.
const shown = (studio) => studio.page.evaluate(() => {
  const label = (start) => [...document.querySelectorAll('#mirror button')].map((e) => e.getAttribute('aria-label')).find((text) => text.startsWith(start));
  return [label('Ticket: '), label('Show ')].join('|');
});

// One change through the mirror, and what the page must show then.
async function change(studio, n, random, now) {
  const [ticket, unit] = now.split('|');
  const [dog, coat] = ticket.replace('Ticket: ', '').split(', ');
  const kind = random();
  if (kind < 0.3) {
    const wanted = unit === 'Show inches' ? 'Show centimetres' : 'Show inches';
    return { state: `${ticket}|${wanted}`, make: () => studio.press('button', unit) };
  }
  const field = kind < 0.7 ? 'Dog’s name' : 'Name of the coat';
  const name = `${field === 'Dog’s name' ? 'Dog' : 'Coat'} ${n}`;
  const state = `Ticket: ${field === 'Dog’s name' ? `${name}, ${coat}` : `${dog}, ${name}`}|${unit}`;
  return { state, make: () => studio.set('textbox', field, name) };
}

export async function killed_while_editing({ url, times, seed, say = () => {} }) {
  const random = dice(seed);
  const profile = mkdtempSync(join(tmpdir(), 'coatwright-kill-'));
  const figures = { kills: 0, changes: 0, told_as_kept: 0, lost: 0, ahead: 0, shown_but_not_told: 0, torn: 0 };
  let n = 0;
  let states = null;  // what the page showed or was about to show, oldest first
  let told = 0;       // index of the last that was told as kept
  try {
    for (let round = 0; round <= times; round += 1) {
      const { browser, kill } = await start_browser(profile);
      try {
        const studio = await open_studio(browser, url);
        const found = await shown(studio);
        if (states) {
          const at = states.lastIndexOf(found);
          if (at < told) {
            figures.lost += 1;
            say(`lost: ${found} instead of ${states.slice(told).join(' or ')}`);
          }
          if (at > told) figures.ahead += 1;
          if (states.seen > Math.max(at, told)) figures.shown_but_not_told += 1;
          if ((await studio.statuses()).some((text) => text.startsWith('Part of what was kept'))) figures.torn += 1;
          if (figures.changes > 5) await until(() => studio.control('button', 'Undo').isEnabled());
        }
        if (round === times) return figures;
        await studio.station('Measure');
        states = [found];
        states.seen = 0;
        told = 0;
        const end = Date.now() + 30 + random() * 1500;
        const editing = (async () => {
          for (;;) {
            const next = await change(studio, n += 1, random, states.at(-1));
            states.push(next.state);
            figures.changes += 1;
            await next.make();
            await until(async () => await shown(studio) === next.state);
            states.seen = states.length - 1;
            await studio.page.evaluate(() => window.coatwright.stored());
            told = states.length - 1;
            figures.told_as_kept += 1;
          }
        })().catch(() => {});  // it ends when the browser does
        await pause(end - Date.now());
        await kill();
        figures.kills += 1;
        await Promise.race([editing, pause(3000)]);
        if (figures.kills % 20 === 0) say(`${figures.kills} kills: ${JSON.stringify(figures)}`);
      } finally {
        await kill();
        browser.close().catch(() => {});
      }
    }
  } finally {
    await pause(200);
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
  return figures;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const site = resolve(process.argv[2]);
  const server = await serve(site);
  const figures = await killed_while_editing({
    url: server.url, times: Number(process.argv[3] ?? 200), seed: Number(process.argv[4] ?? 1), say: console.log,
  });
  server.stop();
  console.log(JSON.stringify(figures));
  assert.equal(figures.lost + figures.torn, 0);
  process.exit(0);
}
