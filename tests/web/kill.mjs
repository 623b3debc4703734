// node kill.mjs SITE TIMES [SEED]: kills the whole browser TIMES times at random moments of editing, starts it again on the
// same profile after each, and looks whether the last change that the page had told as kept is there. Then as often after a
// name was typed and the page was left at once: every second time as soon as another page can read the name in the store, else
// at a random moment of the second after. Prints figures.
//
// What a page can do when it is left is to hand its last changes to the browser; a browser that is killed before it has
// written them to its disk loses them. So what was typed last may be lost to a kill shortly after, and nothing else.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

import { open_studio, start_browser } from './own_browser.mjs';
import { until } from './studio.mjs';
import { serve } from './studio_page.mjs';

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

// What the page shows of the ticket, on every station: its dog, its coat, its unit.
const shown = (studio) => studio.page.evaluate(() => {
  const label = (start) => [...document.querySelectorAll('#mirror button')].map((e) => e.getAttribute('aria-label')).find((text) => text.startsWith(start));
  return [label('Ticket: '), label('Show ')].join('|');
});

const dog_of = (text) => text.match(/^Ticket: ([^,]*)/)[1];

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

// Opens the studio on one profile `times` times, looks at what is there of the time before, works until the browser is killed,
// and looks a last time. `work` answers with what still runs then, as `still`.
async function killed({ url, times, say = () => {} }, figures, { look, work }) {
  const profile = mkdtempSync(join(tmpdir(), 'coatwright-kill-'));
  try {
    for (let round = 0; round <= times; round += 1) {
      const { browser, kill } = await start_browser(profile);
      try {
        const studio = await open_studio(browser, url);
        if (round > 0) {
          await look(studio);
          if ((await studio.statuses()).some((text) => text.startsWith('Part of what was kept'))) figures.torn += 1;
        }
        if (round === times) return figures;
        await studio.station('Measure');
        const { still } = await work(studio, round);
        await kill();
        figures.kills += 1;
        await Promise.race([still, pause(3000)]);
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

export async function killed_while_editing(how) {
  const random = dice(how.seed), { say = () => {} } = how;
  const figures = { kills: 0, changes: 0, told_as_kept: 0, lost: 0, ahead: 0, shown_but_not_told: 0, torn: 0 };
  let n = 0;
  let states = [];  // what the page showed or was about to show, oldest first
  let seen = 0;     // index of the last that it showed
  let told = 0;     // and of the last that was told as kept
  async function look(studio) {
    const found = await shown(studio), at = states.lastIndexOf(found);
    if (at < told) {
      figures.lost += 1;
      say(`lost: ${found} instead of ${states.slice(told).join(' or ')}`);
    }
    if (at > told) figures.ahead += 1;
    if (seen > Math.max(at, told)) figures.shown_but_not_told += 1;
    if (figures.changes > 5) await until(() => studio.control('button', 'Undo').isEnabled());
  }
  async function edit(studio) {
    for (;;) {
      const next = await change(studio, n += 1, random, states.at(-1));
      states.push(next.state);
      figures.changes += 1;
      await next.make();
      await until(async () => await shown(studio) === next.state);
      seen = states.length - 1;
      await studio.page.evaluate(() => window.coatwright.stored());
      told = states.length - 1;
      figures.told_as_kept += 1;
    }
  }
  async function work(studio) {
    states = [await shown(studio)];
    seen = told = 0;
    const end = Date.now() + 30 + random() * 1500;
    const editing = edit(studio).catch(() => {});  // it ends when the browser does
    await pause(end - Date.now());
    return { still: editing };  // not awaited: it ends with the browser
  }
  return killed(how, figures, { look, work });
}

// How a page is left: another is opened in its place, it is loaded again, its tab is closed, or another tab hides it.
const kWays = {
  instead: (page) => page.goto('about:blank'),
  again: (page) => page.reload({ waitUntil: 'commit' }),
  closed: async (page) => {
    await page.context().newPage();  // a browser without a tab would end
    await page.close();
  },
  hidden: async (page) => (await page.context().newPage()).bringToFront(),
};

// Runs in another page of the site: whether the name stands in the store, in a card or in a letter.
const is_written = (page, name) => page.evaluate((wanted) => new Promise((resolve) => {
  const open = indexedDB.open('coatwright');
  open.onsuccess = () => {
    const look = open.result.transaction(['cards', 'letters']);
    const rows = ['cards', 'letters'].map((table) => look.objectStore(table).getAll());
    look.oncomplete = () => {
      open.result.close();
      resolve(rows.some(({ result }) => JSON.stringify(result).includes(wanted)));
    };
  };
}), name);

// Types a name and leaves the page at once, then kills the browser: once the name is written, or up to `latest_ms` later.
export async function killed_after_leaving(how) {
  const random = dice(how.seed), { say = () => {}, latest_ms = 1000 } = how;
  const figures = { kills: 0, written: 0, kept: 0, lost: 0, lost_latest_ms: 0, lost_though_written: 0, older: 0, torn: 0 };
  let before = '', typed = '', after_ms = 0, way = '', written = false;
  async function look(studio) {
    const found = dog_of(await shown(studio));
    if (found === typed) figures.kept += 1;
    else if (!typed.startsWith(found) && found !== before) figures.older += 1;
    else {
      figures.lost += 1;
      figures.lost_latest_ms = Math.max(figures.lost_latest_ms, after_ms);
      if (written) figures.lost_though_written += 1;
      say(`killed ${written ? 'when it was written' : `${after_ms} ms later`} (${way}): ${found} instead of ${typed}`);
    }
  }
  async function wait_till_written(studio) {
    const page = await studio.page.context().newPage();
    await page.goto(`${how.url}slip.html`);
    await until(() => is_written(page, typed));
    figures.written += 1;
  }
  async function work(studio, round) {
    await studio.page.evaluate(() => window.coatwright.stored());
    before = dog_of(await shown(studio));
    typed = `Dog ${round}`;
    after_ms = Math.round(random() * latest_ms);
    way = Object.keys(kWays)[round % Object.keys(kWays).length];
    written = random() < 0.5;
    await studio.control('textbox', 'Dog’s name').focus();
    await studio.page.keyboard.press('Control+A');
    await studio.page.keyboard.type(typed);
    await kWays[way](studio.page);
    if (written) await wait_till_written(studio);
    else await pause(after_ms);
    return {};
  }
  return killed(how, figures, { look, work });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const site = resolve(process.argv[2]);
  const server = await serve(site);
  const how = { url: server.url, times: Number(process.argv[3] ?? 200), seed: Number(process.argv[4] ?? 1), say: console.log };
  const figures = await killed_while_editing(how);
  console.log(JSON.stringify(figures));
  const left = await killed_after_leaving(how);
  console.log(JSON.stringify(left));
  server.stop();
  assert.equal(figures.lost + figures.torn, 0);
  assert.equal(left.lost_though_written + left.older + left.torn, 0);
  process.exit(0);
}
