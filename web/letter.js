// What is kept beside the store, in the browser's local storage, which answers at once: a mark that a rack was here, what
// was half typed, and a letter with the changes that were on their way when the page was left. Where the browser keeps
// nothing, none of it is kept.
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

  return {
    get, set,
    // `why`: the state that held them back.
    write(by, why, changes) {
      if (changes.length === 0) return set('letter', '');
      const text = JSON.stringify({ by, why, changes });
      if (text.length <= MOST_CHARACTERS && set('letter', text)) return true;
      return changes.length > 1 && this.write(by, why, changes.slice(changes.length >> 1));  // the newest ones
    },
    read() {
      try {
        const { by, why, changes } = JSON.parse(get('letter'));
        return Array.isArray(changes) && changes.every(({ number, keep }) => Number.isFinite(number) && typeof keep.id === 'string'
          && typeof keep.card === 'string' && Array.isArray(keep.lines)) ? { by, why, changes } : null;
      } catch {
        return null;
      }
    },
  };
})();
