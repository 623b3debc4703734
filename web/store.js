// Keeps the rack in this browser's IndexedDB: cards, histories, the rack's notes. It knows no more of a ticket than its id.
//
// Only one window writes. Which one is told by the pen: an id that is kept beside the rack and looked at in every change,
// so that a window that has lost it cannot overwrite anything, whatever it believes.
'use strict';

const store = (() => {
  const NAME = 'coatwright', VERSION = 2, PATIENCE_MS = 8000;
  const CARDS = 'cards', HISTORY = 'history', NOTES = 'notes', ASIDE = 'aside';
  const BEFORE = 'journal';  // lines of the version that kept one ticket
  const ME = `${Date.now()}-${Math.random()}`;
  const torn = new Set();    // ids whose history lacks a line here: only a whole one goes on
  let database = null;

  class PenLost extends Error {}

  // A change that never answers (a full or broken store) is given up.
  function in_time(promise) {
    let timer;
    const late = new Promise((_, reject) => {
      timer = setTimeout(() => reject(new Error('the store does not answer')), PATIENCE_MS);
    });
    return Promise.race([promise, late]).finally(() => clearTimeout(timer));
  }

  async function open() {
    database = await in_time(idb.openDB(NAME, VERSION, {
      upgrade(fresh, from) {
        if (from < 1) {
          fresh.createObjectStore(BEFORE, { autoIncrement: true });
          fresh.createObjectStore(ASIDE, { autoIncrement: true });
        }
        fresh.createObjectStore(CARDS);
        fresh.createObjectStore(NOTES);
        fresh.createObjectStore(HISTORY, { autoIncrement: true }).createIndex('id', 'id');
      },
      blocking: () => database && database.close(),  // a newer version waits in another window
      terminated: () => { database = null; },
    }));
  }

  // A request's own failure is told by its whole change, which is what counts.
  const part_of_change = (request) => { if (request) request.catch(() => {}); };

  async function put_history(change, keep) {
    const lines = change.objectStore(HISTORY);
    if (keep.anew || keep.card === '') {
      for (const key of await lines.index('id').getAllKeys(keep.id)) part_of_change(lines.delete(key));
      torn.delete(keep.id);
    }
    if (torn.has(keep.id)) return;
    for (const line of keep.lines) part_of_change(lines.add({ id: keep.id, line }));
  }

  async function put(change, keep) {
    const cards = change.objectStore(CARDS), notes = change.objectStore(NOTES);
    if (await notes.get('pen') !== ME) throw new PenLost();
    if (keep.id === '') part_of_change(notes.put(keep.card, 'rack'));
    else part_of_change(keep.card === '' ? cards.delete(keep.id) : cards.put(keep.card, keep.id));
    if (keep.id !== '') await put_history(change, keep);
    if (keep.aside) part_of_change(change.objectStore(ASIDE).add(keep.aside));
    if (keep.moved) part_of_change(change.objectStore(BEFORE).clear());
  }

  return {
    PenLost,
    // False when this browser keeps nothing.
    async open() {
      try {
        await open();
        return true;
      } catch {
        database = null;
        return false;
      }
    },
    available: () => database !== null,

    // Everything but the histories, as read_stored() of shell/rack/keep.h takes it.
    async read() {
      if (!database) return { notes: '', cards: [], before: '' };
      const look = database.transaction([CARDS, NOTES, BEFORE]);
      const [cards, notes, before] = await in_time(Promise.all([
        look.objectStore(CARDS).getAll(), look.objectStore(NOTES).get('rack'), look.objectStore(BEFORE).getAll(),
      ]));
      return { notes: notes || '', cards, before: before.map((line) => line + '\n').join('') };
    },
    async history(id) {
      if (!database) return '';
      const rows = await in_time(database.getAllFromIndex(HISTORY, 'id', id));
      return rows.map((row) => row.line + '\n').join('');
    },

    async take_pen() {
      if (database) await in_time(database.put(NOTES, ME, 'pen'));
    },
    // One change, all of it or nothing, on the disk when it is answered. Throws PenLost when another window writes.
    async keep(keep) {
      if (!database) return;
      const change = database.transaction([CARDS, HISTORY, NOTES, ASIDE, BEFORE], 'readwrite', { durability: 'strict' });
      try {
        await in_time(Promise.all([put(change, keep), change.done]));
      } catch (error) {
        try { change.abort(); } catch { /* it is over already */ }
        change.done.catch(() => {});
        if (!(error instanceof PenLost)) torn.add(keep.id);
        throw error;
      }
    },
  };
})();
