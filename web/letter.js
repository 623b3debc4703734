// What is kept beside the store, in the browser's local storage, which answers at once: a mark that a rack was here, what
// was half typed, and a letter with the changes that were on their way when the page was left. Where the browser keeps
// nothing, none of it is kept.
//
// Local storage answers at once, but a browser may take seconds to write it to the disk. So the letter is left in the store
// too, which does that at once and answers late: one of both arrives.
'use strict';

const letter = (() => {
  const MOST_CHARACTERS = 4 << 20;  // of local storage's usual 5 MB

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

  // What is no letter, or none that this page can read, is nothing.
  function checked(sent) {
    const { changes } = sent ?? {};
    return Array.isArray(changes) && changes.length > 0 && changes.every(({ number, keep }) => Number.isFinite(number)
      && typeof keep.id === 'string' && typeof keep.card === 'string' && Array.isArray(keep.lines)) ? sent : null;
  }
  const newest = ({ changes }) => changes.at(-1).number;

  return {
    get, set,
    // A letter is { by, why, changes }: the window, the state that held the changes back, the oldest of them first.
    write({ by, why, changes }) {
      if (changes.length === 0) return set('letter', '');
      const text = JSON.stringify({ by, why, changes });
      if (text.length <= MOST_CHARACTERS && set('letter', text)) return true;
      return changes.length > 1 && this.write({ by, why, changes: changes.slice(changes.length >> 1) });  // the newest ones
    },
    // The letters that lie here, with the one that lies in the store: of two of the same window the newer, which has all
    // that was on its way then.
    read(in_store = null) {
      let here = null;
      try { here = checked(JSON.parse(get('letter'))); } catch { /* none */ }
      const [a, b] = [here, checked(in_store)];
      if (a && b && a.by === b.by) return [newest(a) >= newest(b) ? a : b];
      return [a, b].filter((sent) => sent !== null);
    },
  };
})();
