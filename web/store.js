// Keeps the journal of the studio in this browser: one record a line, in the order in which they came.
'use strict';

const store = (() => {
  const NAME = 'coatwright', LINES = 'journal', ASIDE = 'aside', PATIENCE_MS = 4000;
  let database = null;

  // A request that never answers (a full or broken store) is given up.
  function settled(request) {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error('the store does not answer')), PATIENCE_MS);
      request.onsuccess = () => { clearTimeout(timer); resolve(request.result); };
      request.onerror = () => { clearTimeout(timer); reject(request.error); };
      request.onblocked = () => { clearTimeout(timer); reject(new Error('the store is blocked')); };
    });
  }

  async function open() {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(LINES, { autoIncrement: true });
      request.result.createObjectStore(ASIDE, { autoIncrement: true });
    };
    database = await settled(request);
    database.onversionchange = () => database.close();
  }

  const table = (name, mode) => database.transaction(name, mode).objectStore(name);

  return {
    // The journal as one text; null when this browser keeps nothing.
    async read() {
      try {
        await open();
        const lines = await settled(table(LINES, 'readonly').getAll());
        return lines.map((line) => line + '\n').join('');
      } catch {
        database = null;
        return null;
      }
    },
    async append(line) {
      if (database) await settled(table(LINES, 'readwrite').add(line));
    },
    // Puts a journal that could not be read aside, unchanged, and empties the present one.
    async put_aside(journal) {
      if (!database) return;
      await settled(table(ASIDE, 'readwrite').add(journal));
      await settled(table(LINES, 'readwrite').clear());
    },
    available: () => database !== null,
  };
})();
