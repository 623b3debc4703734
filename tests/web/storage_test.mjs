// What this browser keeps, when it cannot, and when what it kept is damaged.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { demo } from './tickets.mjs';

// Runs in the page: all records of a table of the studio's store, or one more put in.
const records = (page, table) => page.evaluate((name) => new Promise((resolve, reject) => {
  const open = indexedDB.open('coatwright');
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const all = open.result.transaction(name).objectStore(name).getAll();
    all.onsuccess = () => { open.result.close(); resolve(all.result); };
  };
}), table);
const put_line = (page, line) => page.evaluate((text) => new Promise((resolve, reject) => {
  const open = indexedDB.open('coatwright');
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const change = open.result.transaction('journal', 'readwrite');
    change.objectStore('journal').add(text);
    change.oncomplete = () => { open.result.close(); resolve(); };
  };
}), line);

async function rename(studio, name) {
  await studio.station('Measure');
  await studio.control('textbox', 'Dog’s name').fill(name);
  await until(() => studio.has('button', new RegExp(`^Ticket: ${name}`)));
  await studio.page.evaluate(() => window.coatwright.stored());
}

export default {
  'a change is kept at once, without being asked': async (visitor) => {
    const studio = await visitor.studio();
    await rename(studio, 'Halyard');
    await studio.page.reload();
    await studio.ready();
    assert.ok(await studio.has('button', /^Ticket: Halyard/));
  },

  'a damaged store is told in a sentence, what can be read is open, and the rest is put aside as it was': async (visitor) => {
    const studio = await visitor.studio();
    await rename(studio, 'Halyard');
    const damaged = 'put\t1\tui.dog\t{"coatwright": 1, "dog": <torn';
    await put_line(studio.page, damaged);
    const journal = await records(studio.page, 'journal');
    await studio.page.reload();
    await studio.ready();
    await studio.sees(/^Part of what was kept here could not be read: .* put aside unchanged/);
    assert.ok(await studio.has('button', /^Ticket: Halyard/));
    await until(async () => (await records(studio.page, 'aside')).length === 1);
    assert.equal((await records(studio.page, 'aside'))[0], journal.map((line) => `${line}\n`).join(''));
    await rename(studio, 'Capstan');
    await studio.page.reload();
    await studio.ready();
    assert.ok(await studio.has('button', /^Ticket: Capstan/));
    assert.ok(!(await studio.statuses()).some((text) => text.startsWith('Part of what was kept')), 'told once');
  },

  'a store with nothing readable opens the demo ticket and keeps what was there': async (visitor) => {
    const studio = await visitor.studio();
    await rename(studio, 'Halyard');
    await studio.page.evaluate(() => new Promise((resolve) => {
      const open = indexedDB.open('coatwright');
      open.onsuccess = () => {
        const change = open.result.transaction('journal', 'readwrite');
        change.objectStore('journal').clear();
        change.objectStore('journal').add('\u0000\ufffd not a journal');
        change.oncomplete = () => { open.result.close(); resolve(); };
      };
    }));
    await studio.page.reload();
    await studio.ready();
    await studio.sees(/^Part of what was kept here could not be read/);
    assert.ok(await studio.has('button', new RegExp(`^Ticket: ${demo.dog}`)));
    await until(async () => (await records(studio.page, 'aside'))[0] === '\u0000\ufffd not a journal\n');
  },

  'a browser that keeps nothing is told so, and the studio works': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('denied', 'SecurityError'); } });
    });
    await studio.sees('This browser keeps nothing for this page: save the ticket as a file');
    await studio.press('button', 'Show centimetres');
    await until(() => studio.has('button', 'Show inches'));
  },

  'a change that cannot be stored is told': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      IDBObjectStore.prototype.add = () => { throw new DOMException('full', 'QuotaExceededError'); };
    });
    await studio.press('button', 'Show centimetres');
    await studio.sees('The last change could not be kept in this browser');
  },
};
