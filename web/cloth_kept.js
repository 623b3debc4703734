// Of the page that lights the cutting table, what it keeps in this browser and what it looks up there: set-ups by name, and
// whether the coat that it shows is still the studio's.
const KEPT = 'coatwright-table:';         // in local storage, and behind it a set-up's name
const STUDIO_CHANNEL = 'coatwright-pen';  // on which the studio tells what it has kept (web/pen.js)
const MOST_NAME = 40, MOST_KEPT = 4000;

// ---- set-ups that are kept -----------------------------------------------------------------------------------------

const is_numbers = (list, count) => Array.isArray(list) && list.length === count && list.every(Number.isFinite);
// Field by field: it may be of another version, torn, or changed by hand. Null: it is not used.
function kept_set_up(text) {
  try {
    const kept = JSON.parse(text.length <= MOST_KEPT ? text : '');
    const sound = kept.form === 1 && is_numbers(kept.rectangle, 2) && kept.rectangle.every((side) => side >= 100 && side <= 3000) && is_numbers(kept.mending, 3)
      && Array.isArray(kept.pins) && kept.pins.length === 4 && kept.pins.every((pin) => is_numbers(pin, 2) && pin.every((v) => Math.abs(v) < 1e5));
    return sound ? kept : null;
  } catch {
    return null;
  }
}
function kept_names() {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(KEPT)).map((key) => key.slice(KEPT.length)).sort((a, b) => a.localeCompare(b));
  } catch {
    return [];
  }
}
function keep() {
  const name = one('name').value.replace(/[\x00-\x1f\x7f-\x9f]/g, ' ').trim().slice(0, MOST_NAME);
  if (!name) {
    one('keep-told').textContent = say("light.name-missing");
    return;
  }
  try {
    localStorage.setItem(KEPT + name, JSON.stringify({ form: 1, rectangle: [table.wide, table.high], pins: table.pins, mending: table.mending }));
    one('keep-told').textContent = say("light.kept", name);
  } catch {
    one('keep-told').textContent = say("light.not-kept");
  }
}
function list_kept() {
  const names = kept_names();
  one('kept').hidden = names.length === 0;
  one('kept-list').replaceChildren(...names.map((name) => {
    const row = document.createElement('li'), words = document.createElement('span');
    const kept = kept_set_up(localStorage.getItem(KEPT + name) || '');
    words.textContent = kept ? name : say("light.unread", name);
    const key = (label, deed) => {
      const button = Object.assign(document.createElement('button'), { textContent: label });
      button.setAttribute('aria-label', `${label}: ${name}`);
      button.addEventListener('click', deed);
      return button;
    };
    row.append(words);
    if (kept) row.append(key(say("light.use"), () => use(name, kept)));
    row.append(key(say("light.forget"), () => { localStorage.removeItem(KEPT + name); list_kept(); one('begin').focus(); }));
    return row;
  }));
}
async function use(name, kept) {
  const filled = fill_screen();
  Object.assign(table, { wide: kept.rectangle[0], high: kept.rectangle[1], pins: kept.pins, mending: kept.mending, name });
  await settle_in(filled);
  one('name').value = name;
  table.pins = kept.pins.map(([x, y]) => [Math.min(innerWidth, Math.max(0, x)), Math.min(innerHeight, Math.max(0, y))]);
  place_pins();
  at = 'set-up';
  await draw();
  if (fault) go('set-up');
  else await ask_check(say("light.check-kept", name));
}

// ---- whether the coat is still the studio's --------------------------------------------------------------------------

// What of a ticket says nothing of how it is cut.
const BESIDE = ['name', 'dog', 'done', 'cut', 'print', 'quote', 'notes', 'measured', 'birth', 'drafted-by'];
// The ticket on the rack, as text without what is beside the point; null where it cannot be read. The store is opened as it
// is, and never made.
function ticket_on_rack(id) {
  return new Promise((resolve) => {
    let opening;
    try {
      opening = indexedDB.open('coatwright');
    } catch {
      return resolve(null);
    }
    opening.onupgradeneeded = () => opening.transaction.abort();
    opening.onerror = opening.onblocked = () => resolve(null);
    opening.onsuccess = () => {
      const store = opening.result;
      const done = (value) => { store.close(); resolve(value); };
      try {
        const reading = store.transaction('cards').objectStore('cards').get(id);
        reading.onerror = () => done(null);
        reading.onsuccess = () => {
          try {
            const { ticket } = JSON.parse(reading.result);
            for (const field of BESIDE) delete ticket[field];
            done(JSON.stringify(ticket));
          } catch {
            done(null);
          }
        };
      } catch {
        done(null);
      }
    };
    return undefined;
  });
}
async function watch_studio() {
  if (!('BroadcastChannel' in window)) return;
  const before = new Map();
  for (const id of coat.ids) before.set(id, await ticket_on_rack(id));
  new BroadcastChannel(STUDIO_CHANNEL).onmessage = async ({ data }) => {
    const id = data && data.changed;
    if (!before.has(id)) return;
    const now = await ticket_on_rack(id);
    const changed = now === null || now !== before.get(id);
    if (!changed) return;
    one('changed').textContent = say("light.changed");
    one('changed').hidden = false;
    stay();
  };
}
