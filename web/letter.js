// What is kept beside the store, in the browser's local storage, which answers at once: a mark that a rack was here, what
// was half typed, and a letter with the changes that were on their way when the page was left. Where the browser keeps
// nothing, none of it is kept.
//
// Local storage answers at once, but a browser may take seconds to write it to the disk. So the letter is left in the store
// too, which does that at once and answers late: one of both arrives. On a full disk a browser may give up both for as long
// as it runs, with all that they held; a letter of changes that are held back lies in its cache of responses as well.
'use strict';

const letter = (() => {
  const MOST_CHARACTERS = 4 << 20;  // of local storage's usual 5 MB
  const BOX = 'coatwright-letter';  // the cache, with one response

  function get(name) {
    try { return localStorage.getItem(`coatwright-${name}`) || ''; } catch { return ''; }
  }
  function set(name, text) {
    try {
      if (text) localStorage.setItem(`coatwright-${name}`, text);
      else localStorage.removeItem(`coatwright-${name}`);
      return true;
    } catch {
      return false;
    }
  }

  function parsed(text) {
    try { return JSON.parse(text); } catch { return null; }
  }
  // What is no letter, or none that this page can read, is nothing.
  function checked(sent) {
    const { changes } = sent ?? {};
    return Array.isArray(changes) && changes.length > 0 && changes.every(({ number, keep }) => Number.isFinite(number)
      && typeof keep.id === 'string' && typeof keep.card === 'string' && Array.isArray(keep.lines)) ? sent : null;
  }
  function together(one, other) {
    const changes = new Map([...one.changes, ...other.changes].map((change) => [change.number, change]));
    return { ...one, changes: [...changes.values()].sort((a, b) => a.number - b.number) };
  }

  return {
    get, set,
    // A letter is { by, after, why, changes }: the window, the one that had written in the store before it, the state that
    // held the changes back, the oldest of them first.
    write(sent) {
      const { changes } = sent;
      if (changes.length === 0) return set('letter', '');
      const text = JSON.stringify(sent);
      if (text.length <= MOST_CHARACTERS && set('letter', text)) return true;
      return changes.length > 1 && this.write({ ...sent, changes: changes.slice(changes.length >> 1) });  // the newest ones
    },
    // Into the cache; what it does not take is tried again with the next letter.
    async deposit(sent) {
      try {
        await (await caches.open(BOX)).put(BOX, new Response(JSON.stringify(sent)));
      } catch { /* full too, or none */ }
    },
    forget_here: () => set('letter', ''),
    async forget() {
      this.forget_here();
      try { await caches.delete(BOX); } catch { /* none */ }
    },
    // The letters that lie here, with the one that lies in the store, the oldest first (a window's name begins with the time
    // at which it was opened): those of one window together as one, each of its changes once.
    async read(in_store = null) {
      const sent = [in_store, parsed(get('letter'))];
      try { sent.push(await (await caches.match(BOX, { cacheName: BOX })).json()); } catch { /* none */ }
      const windows = new Map();
      for (const one of sent.map(checked).filter((of_its_form) => of_its_form !== null)) {
        const all = windows.get(one.by);
        windows.set(one.by, all ? together(all, one) : one);
      }
      return [...windows.values()].sort((one, other) => parseFloat(one.by) - parseFloat(other.by));
    },
  };
})();
