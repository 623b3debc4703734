// What this browser keeps, when it cannot, when what it kept is damaged or older, and which of two windows writes.
import assert from 'node:assert/strict';

import { reloaded, rename } from './keeping.mjs';
import { devices } from './studio_page.mjs';
import { Studio, until } from './studio.mjs';
import { demo, ticket } from './tickets.mjs';

// Runs in the page: all records of a table of the studio's store.
const records = (page, table) => page.evaluate((name) => new Promise((resolve, reject) => {
  const open = indexedDB.open('coatwright');
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const all = open.result.transaction(name).objectStore(name).getAll();
    all.onsuccess = () => { open.result.close(); resolve(all.result); };
  };
}), table);
// Runs in the page: makes the newest line of the histories unreadable.
const tear_last_line = (page, text) => page.evaluate((torn) => new Promise((resolve, reject) => {
  const open = indexedDB.open('coatwright');
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const change = open.result.transaction('history', 'readwrite');
    change.objectStore('history').openCursor(null, 'prev').onsuccess = ({ target }) => {
      target.result.update({ ...target.result.value, line: torn });
    };
    change.oncomplete = () => { open.result.close(); resolve(); };
  };
}), text);
// Runs in a page that has no store yet: the store as the version that kept one ticket had it.
const older_store = (lines) => new Promise((resolve) => {
  const open = indexedDB.open('coatwright', 1);
  open.onupgradeneeded = () => {
    const journal = open.result.createObjectStore('journal', { autoIncrement: true });
    open.result.createObjectStore('aside', { autoIncrement: true });
    for (const line of lines) journal.add(line);
  };
  open.onsuccess = () => { open.result.close(); resolve(); };
});

// A second window of the same browser.
async function second_window(studio, visitor) {
  const page = await studio.page.context().newPage();
  page.on('pageerror', (error) => visitor.faults.push(`uncaught: ${error.message}`));
  await page.goto(visitor.url);
  const other = new Studio(page);
  await other.ready();
  return other;
}

export default {
  'a change is kept at once, without being asked': async (visitor) => {
    const studio = await visitor.studio();
    await rename(studio, 'Halyard');
    await reloaded(studio);
    assert.ok(await studio.has('button', /^Ticket: Halyard/));
  },

  'the ticket that an earlier version kept hangs on the rack with its whole history': async (visitor) => {
    const page = await visitor.new_page();
    page.on('pageerror', (error) => visitor.faults.push(`uncaught: ${error.message}`));
    const lines = ['Hawser', 'Capstan', 'Fender'].map((dog, i) => `put\t${i}\tui.dog\t${JSON.stringify(ticket({ dog }))}`);
    await page.goto(`${visitor.url}slip.html`);  // the same address, another page
    await page.evaluate(older_store, [...lines, 'at\t1']);
    await page.goto(visitor.url);
    const studio = new Studio(page);
    await studio.ready();
    assert.ok(await studio.has('button', /^Ticket: Capstan/));
    await page.evaluate(() => window.coatwright.stored());
    assert.deepEqual(await records(page, 'journal'), [], 'it is kept anew');
    await reloaded(studio);
    assert.ok(await studio.has('button', /^Ticket: Capstan/));
    await studio.press('button', 'Redo');
    await until(() => studio.has('button', /^Ticket: Fender/));
    await studio.press('button', 'Undo');
    await studio.press('button', 'Undo');
    await until(() => studio.has('button', /^Ticket: Hawser/));
    assert.equal((await records(page, 'cards')).length, 1);
  },

  'what an earlier version kept and nobody can read is put aside as it was': async (visitor) => {
    const page = await visitor.new_page();
    await page.goto(`${visitor.url}slip.html`);
    await page.evaluate(older_store, ['\u0000\ufffd not a journal']);
    await page.goto(visitor.url);
    const studio = new Studio(page);
    await studio.ready();
    assert.ok(await studio.has('button', new RegExp(`^Ticket: ${demo.dog}`)));
    await until(async () => (await records(page, 'aside'))[0] === '\u0000\ufffd not a journal\n');
  },

  'a damaged history is told in a sentence and put aside as it was, and the ticket is as it was left': async (visitor) => {
    const studio = await visitor.studio();
    await rename(studio, 'Halyard');
    const damaged = 'put\t1\tui.dog\t{"coatwright": 1, "dog": <torn';
    await tear_last_line(studio.page, damaged);
    await reloaded(studio);
    await studio.sees(/^Part of what was kept here could not be read: .* put aside unchanged/);
    assert.ok(await studio.has('button', /^Ticket: Halyard/));
    await until(async () => (await records(studio.page, 'aside')).length === 1);
    assert.ok((await records(studio.page, 'aside'))[0].endsWith(`${damaged}\n`));
    await rename(studio, 'Capstan');
    await reloaded(studio);
    assert.ok(await studio.has('button', /^Ticket: Capstan/));
    assert.ok(!(await studio.statuses()).some((text) => text.startsWith('Part of what was kept')), 'told once');
  },

  'a ticket of a later version stays in the store as it is, and is told': async (visitor) => {
    const studio = await visitor.studio();
    await rename(studio, 'Halyard');
    const future = '{"coatwright-card":9,"id":"future00"}';
    await studio.page.evaluate((card) => new Promise((resolve) => {
      const open = indexedDB.open('coatwright');
      open.onsuccess = () => {
        const change = open.result.transaction('cards', 'readwrite');
        change.objectStore('cards').put(card, 'future00');
        change.oncomplete = () => { open.result.close(); resolve(); };
      };
    }), future);
    await reloaded(studio);
    await rename(studio, 'Capstan');
    await studio.press('button', /^Ticket: /);
    await studio.sees(/^Tickets of a newer Coatwright hang here, .*: 1\./);
    assert.ok((await records(studio.page, 'cards')).includes(future));
  },

  'a browser that keeps nothing is told so, and the studio works and exports': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('denied', 'SecurityError'); } });
    });
    await studio.sees('This browser keeps nothing for this page: save the ticket as a file');
    await studio.press('button', 'Show centimetres');
    await until(() => studio.has('button', 'Show inches'));
    assert.equal((await studio.saved_ticket()).unit, 'cm');
    await studio.open_ticket(ticket({ dog: 'Halyard' }));
    await studio.press('button', /^Ticket: /);
    await studio.sees('This browser keeps nothing for this page (a private window, or storage is denied)');
    await studio.press('button', new RegExp(`^Open ${demo.dog}`));
    await until(() => studio.has('button', new RegExp(`^Ticket: ${demo.dog}`)));
  },

  'a private window that has no store, or one that does not open, is told so and work goes on': async (visitor) => {
    const kinds = [
      () => { Object.defineProperty(window, 'indexedDB', { value: undefined }); },
      () => {
        IDBFactory.prototype.open = () => { throw new DOMException('not in a private window', 'InvalidStateError'); };
        Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError'); } });
      },
    ];
    for (const kind of kinds) {
      const studio = await visitor.studio(devices.tablet, kind);
      await studio.sees('This browser keeps nothing for this page: save the ticket as a file');
      await studio.press('button', 'Show centimetres');
      await until(() => studio.has('button', 'Show inches'));
      await studio.press('button', 'Evening');
      assert.equal((await studio.saved_ticket()).unit, 'cm');
    }
  },

  'a full disk is told, work goes on, and all of it is kept once there is room again': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      const add = IDBObjectStore.prototype.add;
      window.disk_is_full = false;
      IDBObjectStore.prototype.add = function (...values) {
        if (window.disk_is_full) throw new DOMException('full', 'QuotaExceededError');
        return add.apply(this, values);
      };
    });
    await rename(studio, 'Halyard');
    await studio.page.evaluate(() => { window.disk_is_full = true; });
    await studio.press('button', 'Show centimetres');
    await studio.sees('This device is full: what you changed last is in this window only');
    await rename(studio, 'Capstan');
    assert.equal((await studio.saved_ticket()).dog, 'Capstan', 'export still works');
    await studio.press('button', /^Ticket: /);
    await studio.sees('This device is full');
    await studio.press('button', /^Ticket: /);
    await studio.page.evaluate(() => { window.disk_is_full = false; });
    await rename(studio, 'Fender');
    await reloaded(studio);
    assert.ok(await studio.has('button', /^Ticket: Fender/));
    await studio.press('button', 'Undo');
    await until(() => studio.has('button', /^Ticket: (?!Fender)/));
  },

  'a store that never answers is given up with a sentence': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      window.disk_hangs = false;
      const add = IDBObjectStore.prototype.add;
      IDBObjectStore.prototype.add = function (...values) {
        return window.disk_hangs ? this.count() && new Proxy(this.count(), { get: () => () => {} }) : add.apply(this, values);
      };
      const transaction = IDBDatabase.prototype.transaction;
      IDBDatabase.prototype.transaction = function (...values) {
        const change = transaction.apply(this, values);
        if (window.disk_hangs) change.addEventListener = () => {};
        return change;
      };
    });
    await rename(studio, 'Halyard');
    await studio.page.evaluate(() => { window.disk_hangs = true; });
    await studio.press('button', 'Show centimetres');
    await until(async () => assert.ok((await studio.statuses()).some((text) => text.startsWith('Nothing answers where your tickets are kept'))), 20000);
    await until(() => studio.has('button', 'Show inches'));
  },

  'a rack that the browser may clear says so and asks for a backup': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      StorageManager.prototype.persisted = async () => false;
      StorageManager.prototype.persist = async () => { window.asked_to_persist = true; return false; };
    });
    await rename(studio, 'Halyard');
    assert.equal(await studio.page.evaluate(() => window.asked_to_persist), true);
    await studio.press('button', /^Ticket: /);
    await studio.sees(/the browser may clear it .* Install the page/);
    await studio.sees('There is no backup of this rack');
  },

  'where the browser offers to install the page, the rack leads to it': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      StorageManager.prototype.persisted = async () => false;
      StorageManager.prototype.persist = async () => false;
    });
    await rename(studio, 'Halyard');
    await studio.press('button', /^Ticket: /);
    await studio.sees(/the browser may clear it .* Install the page/);
    assert.ok(!await studio.has('button', 'Install on this device'), 'no offer, no button');
    await studio.page.evaluate(() => {
      const offer = new Event('beforeinstallprompt', { cancelable: true });
      offer.prompt = async () => { window.prompted = true; };
      window.dispatchEvent(offer);
    });
    await until(() => studio.has('button', 'Install on this device'));
    await studio.press('button', 'Install on this device');
    await until(() => studio.page.evaluate(() => window.prompted));
    await until(async () => !await studio.has('button', 'Install on this device'));
  },

  'while the browser still asks whether things may be kept for good, they are kept': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      StorageManager.prototype.persist = () => { window.asked_to_persist = true; return new Promise(() => {}); };
    });
    await rename(studio, 'Halyard');
    await rename(studio, 'Hawser');
    assert.equal(await studio.page.evaluate(() => window.asked_to_persist), true);
    await reloaded(studio);
    await until(() => studio.has('button', /^Ticket: Hawser/));
  },

  'a rack that is kept for good says so': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      let given = false;
      StorageManager.prototype.persisted = async () => given;
      StorageManager.prototype.persist = async () => { given = true; return true; };
    });
    await rename(studio, 'Halyard');
    await studio.press('button', /^Ticket: /);
    await studio.sees('Everything is kept in this browser, on this device, until you delete it');
    assert.ok(!(await studio.statuses()).some((text) => text.startsWith('There is no backup')));
  },

  'of two windows one writes, the other follows and says so, and takes over when it is asked to': async (visitor) => {
    const first = await visitor.studio();
    await rename(first, 'Halyard');
    const second = await second_window(first, visitor);
    await second.sees('Another window writes on the rack');
    assert.ok(await second.has('button', /^Ticket: Halyard/));
    await rename(first, 'Capstan');
    await until(() => second.has('button', /^Ticket: Capstan/));
    await second.press('button', 'Show centimetres');
    await second.sees('choose “Write here”');
    assert.ok(await second.has('button', 'Show centimetres'), 'nothing was changed');

    await second.press('button', 'Write here');
    await until(async () => !(await second.statuses()).some((text) => text.startsWith('Another window')));
    await first.sees('Another window writes on the rack');
    await rename(second, 'Fender');
    await until(() => first.has('button', /^Ticket: Fender/));
    await first.station('Measure');
    await first.control('textbox', 'Dog’s name').fill('Overwriter');
    await first.sees('choose “Write here”');

    await second.page.close();
    await until(async () => !(await first.statuses()).some((text) => text.startsWith('Another window')));
    await rename(first, 'Pennant');
    await reloaded(first);
    assert.ok(await first.has('button', /^Ticket: Pennant/));
    await first.press('button', 'Undo');
    await until(() => first.has('button', /^Ticket: Fender/), 10000);
  },

  'a window that has lost the pen without knowing it overwrites nothing': async (visitor) => {
    const no_locks = () => {
      Object.defineProperty(navigator, 'locks', { value: undefined });
      delete window.BroadcastChannel;
    };
    const first = await visitor.studio(devices.tablet, no_locks);
    await rename(first, 'Halyard');
    const page = await first.page.context().newPage();
    await page.addInitScript(no_locks);
    await page.goto(visitor.url);
    const second = new Studio(page);
    await second.ready();
    await rename(second, 'Capstan');
    await first.station('Measure');
    await first.control('textbox', 'Dog’s name').fill('Overwriter');
    await first.sees('Another window writes on the rack');
    await until(() => first.has('button', /^Ticket: Capstan/));
    await reloaded(second);
    assert.ok(await second.has('button', /^Ticket: Capstan/));
  },
};
