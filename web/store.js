// Keeps the rack in this browser's IndexedDB: cards, histories, the rack's notes. It knows no more of a ticket than its id.
//
// Only one window writes. Which one is told by the pen: an id that is kept beside the rack and looked at in every change,
// so that a window that has lost it cannot overwrite anything, whatever it believes.
'use strict';

const store = (() => {
  const NAME = 'coatwright', VERSION = 4, PATIENCE_MS = 8000;
  const AT_ONCE = 100;       // cards, read or written between two looks at what else is to be done
  const CARDS = 'cards', HISTORY = 'history', NOTES = 'notes', ASIDE = 'aside';
  const PHOTOS = 'photographs';  // JPEG files under [ticket, its own id]: apart, so that reading the rack reads none
  const LETTERS = 'letters'; // of a page that was left: apart, so that leaving one waits for no change that is under way
  const BEFORE = 'journal';  // lines of the version that kept one ticket
  const ALL = [CARDS, HISTORY, NOTES, ASIDE, BEFORE, PHOTOS];
  const LETTER = 'letter';   // the one row there
  const ME = `${Date.now()}-${Math.random()}`;
  const torn = new Set();    // ids whose history lacks a line here: only a whole one goes on
  let laid_aside = 0;        // of letters, in this window: nobody has been told of them yet
  let database = null;
  let on_close = () => {};

  class PenLost extends Error {}
  class Closed extends Error {}  // the connection is gone, or everything that was kept
  class Silent extends Error {}

  // A change that never answers (a full or broken store) is given up.
  function in_time(promise) {
    let timer;
    const late = new Promise((_, reject) => {
      timer = setTimeout(() => reject(new Silent('the store does not answer')), PATIENCE_MS);
    });
    return Promise.race([promise, late]).finally(() => clearTimeout(timer));
  }

  function drop() {
    if (database) database.close();
    database = null;
  }
  function upgrade(fresh, from, to, change) {
    if (from < 1) {
      fresh.createObjectStore(BEFORE, { autoIncrement: true });
      fresh.createObjectStore(ASIDE, { autoIncrement: true });
    }
    if (from < 2) {
      fresh.createObjectStore(CARDS);
      fresh.createObjectStore(NOTES);
      fresh.createObjectStore(HISTORY, { autoIncrement: true }).createIndex('id', 'id');
    }
    if (from < 3) fresh.createObjectStore(LETTERS);
    // Version 2 had its letter among the notes.
    if (from === 2) change.objectStore(NOTES).get(LETTER).then((sent) => sent && change.objectStore(LETTERS).put(sent, LETTER));
    fresh.createObjectStore(PHOTOS);
  }
  async function open() {
    let given_up = false;
    // The browser has closed it, or another window deletes it or brings a newer version.
    const closed = () => { drop(); on_close(); };
    const opening = idb.openDB(NAME, VERSION, { upgrade, blocking: closed, terminated: closed });
    opening.then((late) => { if (given_up) late.close(); }, () => {});
    try {
      database = await in_time(opening);
    } catch (error) {
      given_up = true;
      throw error;
    }
  }
  // A connection may be dead although nobody said so: a transaction tells.
  function transaction(...values) {
    try {
      return database.transaction(...values);
    } catch {
      drop();
      throw new Closed('the store is closed');
    }
  }

  // A request's own failure is told by its whole change, which is what counts.
  const part_of_change = (request) => { if (request) request.catch(() => {}); };
  // A row as text: one that is none is foreign, and shown as well as can be.
  function text_of(row) {
    if (typeof row === 'string') return row;
    try { return JSON.stringify(row) ?? String(row); } catch { return String(row); }
  }

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
    if (keep.id === '') part_of_change(notes.put(keep.card, 'rack'));
    else part_of_change(keep.card === '' ? cards.delete(keep.id) : cards.put(keep.card, keep.id));
    const photos = change.objectStore(PHOTOS);
    for (const id of keep.gone ?? []) part_of_change(photos.delete([keep.id, id]));
    if (keep.card === '') part_of_change(photos.delete(IDBKeyRange.bound([keep.id], [keep.id, []])));
    if (keep.aside) part_of_change(change.objectStore(ASIDE).add(keep.aside));
    if (keep.moved) part_of_change(change.objectStore(BEFORE).clear());
    if (keep.id !== '') await put_history(change, keep);
  }

  async function write_as_mine(change) {
    const pen = await change.objectStore(NOTES).get('pen');
    if (pen === undefined) throw new Closed('the store was cleared');
    if (pen !== ME) throw new PenLost();
  }
  // One change, all of it or nothing, on the disk when it is answered; `work` fills it. It is told to commit, so that the
  // browser finishes it although the page is gone.
  async function change_all(work, tables = ALL) {
    const change = transaction(tables, 'readwrite', { durability: 'strict' });
    const filled = async () => {
      const answer = await work(change);
      change.commit();
      return answer;
    };
    try {
      return (await in_time(Promise.all([filled(), change.done])))[0];
    } catch (error) {
      try { change.abort(); } catch { /* it is over already */ }
      change.done.catch(() => {});
      throw error;
    }
  }

  return {
    PenLost, Closed, Silent, ME,
    // Throws what keeps it from being opened.
    open,
    available: () => database !== null,
    when_closed(listener) { on_close = listener; },

    // Everything but the histories, as read_stored() of shell/rack/keep.h takes it; `cards` by their ids.
    async read() {
      const look = transaction([CARDS, NOTES, BEFORE, ASIDE]);
      const cards = look.objectStore(CARDS), held = new Map();
      for (let range = null; ;) {
        const [ids, rows] = await in_time(Promise.all([cards.getAllKeys(range, AT_ONCE), cards.getAll(range, AT_ONCE)]));
        ids.forEach((id, i) => held.set(id, text_of(rows[i])));
        if (ids.length < AT_ONCE) break;
        range = IDBKeyRange.lowerBound(ids[ids.length - 1], true);
      }
      const [notes, before, asides] = await in_time(Promise.all([
        look.objectStore(NOTES).get('rack'), look.objectStore(BEFORE).getAll(), look.objectStore(ASIDE).getAll(),
      ]));
      return {
        notes: notes === undefined ? '' : text_of(notes),
        cards: held,
        before: before.map((line) => text_of(line) + '\n').join(''),
        asides: asides.map(text_of),
        fresh: laid_aside,
      };
    },
    // One card's line, or the rack's notes; nothing if it is not there.
    async card(id) {
      const [from, key] = id === '' ? [NOTES, 'rack'] : [CARDS, id];
      const row = await in_time(transaction(from).store.get(key));
      return row === undefined ? '' : text_of(row);
    },
    async history(id) {
      const rows = await in_time(transaction(HISTORY).store.index('id').getAll(id));
      return rows.map((row) => text_of(row.line) + '\n').join('');
    },

    photo: (ticket, id) => in_time(transaction(PHOTOS).store.get([ticket, id])),
    // In no one's place: what lies there is the same, or somebody's own.
    keep_photo: (ticket, id, bytes) => change_all(async (change) => {
      await write_as_mine(change);
      const photos = change.objectStore(PHOTOS);
      if (await photos.getKey([ticket, id]) === undefined) part_of_change(photos.put(bytes, [ticket, id]));
    }, [NOTES, PHOTOS]),

    // Who wrote last; nothing in a store that is new, or was cleared.
    pen: () => in_time(transaction(NOTES).store.get('pen')),
    async take_pen() {
      await change_all((change) => change.objectStore(NOTES).put(ME, 'pen'));
    },
    // A cleared store has no line of any history.
    forget_torn: () => torn.clear(),

    // Throws PenLost when another window writes, Closed when what was kept is gone. `number`: of the newest of the
    // changes, by which a letter is known to have arrived.
    async keep(keeps, number) {
      try {
        await change_all(async (change) => {
          await write_as_mine(change);
          part_of_change(change.objectStore(NOTES).put({ by: ME, number }, 'last'));
          for (const keep of keeps) await put(change, keep);
        });
      } catch (error) {
        if (!(error instanceof PenLost)) for (const keep of keeps) torn.add(keep.id);
        throw error;
      }
    },
    // A letter (web/letter.js) of a page that is being left. Nothing is awaited: a change that was told to commit is the
    // browser's to finish, also when its page is gone.
    leave(sent) {
      try {
        const change = database.transaction(LETTERS, 'readwrite', { durability: 'strict' });
        change.done.catch(() => {});
        part_of_change(change.objectStore(LETTERS).put(sent, LETTER));
        change.commit();
      } catch { /* closed: it lies in local storage */ }
    },
    letter: () => in_time(transaction(LETTERS).store.get(LETTER)),
    forget_letter: () => change_all((change) => change.objectStore(LETTERS).delete(LETTER), [LETTERS]),
    // What windows that are gone left in letters, the oldest first: what has not arrived of it is kept now, unless another
    // window has written since; then it is put aside. `after`: whom the window followed that could not write here.
    // Answers whether the store was new, or had been thrown away.
    deliver: (letters) => change_all(async (change) => {
      const notes = change.objectStore(NOTES);
      const pen = await notes.get('pen'), last = await notes.get('last');
      part_of_change(change.objectStore(LETTERS).delete(LETTER));
      for (const { by, after, changes } of letters) {
        const new_ones = changes.filter(({ number }) => !(last && last.by === by && number <= last.number));
        if (pen === undefined || pen === by || pen === after) {
          for (const { keep } of new_ones) await put(change, keep);
        } else if (new_ones.length > 0) {
          part_of_change(change.objectStore(ASIDE).add(text_of(new_ones)));
          laid_aside += 1;
        }
      }
      return pen === undefined;
    }, [...ALL, LETTERS]),
  };
})();
