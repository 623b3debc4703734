// The controls of the canvas as real elements that cannot be seen: for screen readers, keyboards and tests.
// The program sends them as a list; only what changed is touched, so that focus and announcements stay.
'use strict';

// Tells what has come of a deed, once things are at rest, and no oftener than can be listened to. What is only new because
// the maker has come to another place is not told: it is there to be read.
const announcer = (() => {
  const QUIET = 500, LATEST = 2000, MOST = 400;  // ms after the last change, after the first one; letters
  const region = document.getElementById('told');
  let known = new Map(), place, timer = 0, since = 0;
  const waiting = new Map();  // id → words

  function speak() {
    const words = [...waiting.values()].join(' ');
    waiting.clear();
    since = 0;
    if (words) region.replaceChildren(Object.assign(document.createElement('p'), { textContent: words.slice(0, MOST) }));
  }
  function hear(at, controls) {
    const now = new Map(controls.filter(({ role }) => role === 'status').map((control) => [control.id, control]));
    for (const id of [...waiting.keys()]) {
      if (!now.has(id)) waiting.delete(id);
    }
    let fresh = false;
    for (const [id, { name, part }] of now) {
      const of_place = part === 'part.sheet' && at !== place;
      if (known.get(id) === name || of_place || place === undefined) continue;
      waiting.set(id, name);
      fresh = true;
    }
    known = new Map([...now].map(([id, { name }]) => [id, name]));
    place = at;
    if (!fresh) return;
    since ||= performance.now();
    clearTimeout(timer);
    timer = setTimeout(speak, Math.max(0, Math.min(QUIET, since + LATEST - performance.now())));
  }
  return { hear };
})();

const mirror = (() => {
  const root = document.getElementById('mirror');
  const known = new Map();   // id → {element, its note's, role, control as JSON text, value sent last, value before the next}
  const groups = new Map();  // what stands round controls: key → element
  let call = () => {};
  let updating = false;      // what the focus does meanwhile is not the maker's doing

  const MAKERS = {
    button: () => button(), toggle: () => button(), tick: () => button('checkbox'), fold: () => button(), tab: () => button('tab'),
    radio: () => button('radio'), slider: () => input('range'), text: () => input('text', 'words'), number: () => input('text', 'number'),
    status: () => document.createElement('p'), words: () => document.createElement('p'), heading: () => plain('heading'), img: () => plain('img'),
  };
  // How a role says that it is chosen.
  const CHOSEN = { tab: 'aria-selected', radio: 'aria-checked', tick: 'aria-checked', toggle: 'aria-pressed', fold: 'aria-expanded' };
  function button(role) {
    const element = document.createElement('button');
    element.type = 'button';
    if (role) element.setAttribute('role', role);
    return element;
  }
  function input(type, name) {
    const element = document.createElement('input');
    element.type = type;
    element.autocomplete = 'off';
    element.spellcheck = false;
    if (name) element.className = name;
    if (name === 'number') element.inputMode = 'none';  // our own keypad is on the canvas
    if (name === 'words') element.enterKeyHint = 'next';
    return element;
  }
  function plain(role) {
    const element = document.createElement('div');
    element.setAttribute('role', role);
    return element;
  }

  function listen(element, id) {
    element.addEventListener('focus', () => { if (!updating) call('coatwright_focus', id, element.matches(':focus-visible') ? 1 : 0); });
    element.addEventListener('blur', () => {
      if (!updating) call('coatwright_focus', '', 0);
      if (element.tagName === 'BUTTON') element.disabled = element.getAttribute('aria-disabled') === 'true';
    });
    if (element.tagName === 'BUTTON') {
      element.addEventListener('click', () => {
        if (!root.contains(document.activeElement)) element.focus({ preventScroll: true });  // pressed by a screen reader
        call('coatwright_act', id);
      });
      return;
    }
    if (element.tagName !== 'INPUT') return;
    element.addEventListener('input', () => enter(element, id, element.value));
    element.addEventListener('paste', (event) => paste_lines(event, element, id));
    element.addEventListener('keydown', (event) => {
      if (event.key !== 'Enter' || element.className !== 'number') return;
      event.preventDefault();
      enter(element, id, `${element.value}\n`);
    });
  }
  // A field has one line, and a browser would join those of a text that is pasted: a | stands between them then.
  function paste_lines(event, element, id) {
    const text = event.clipboardData.getData('text/plain').trim();
    if (element.className !== 'words' || !/[\r\n]/.test(text)) return;
    event.preventDefault();
    element.setRangeText(text.replace(/[\r\n]+/g, ' | '), element.selectionStart, element.selectionEnd, 'end');
    enter(element, id, element.value);
  }
  function enter(element, id, text) {
    const entry = known.get(id), was = entry.shown;
    entry.sent = text;
    entry.shown = element.value;
    entry.text = '';  // what the program answers is written, also where it says what it said before
    call('coatwright_enter', id, text, was);
  }

  function attribute(element, name, value) {
    if (value === undefined) element.removeAttribute(name);
    else if (element.getAttribute(name) !== String(value)) element.setAttribute(name, value);
  }

  function write_value(element, control, entry) {
    if (control.role === 'slider') {
      for (const [name, value] of [['min', control.low], ['max', control.high], ['step', 'any']]) attribute(element, name, value);
      if (element.valueAsNumber !== control.now) element.value = control.now;
      attribute(element, 'aria-valuetext', control.value);
      element.dataset.step = control.step;
    } else if (control.role === 'text' || control.role === 'number') {
      // A field that is being typed in keeps what was typed, unless the program itself changed it.
      const typing = document.activeElement === element;
      const words_kept = typing && (control.role === 'text' || control.value === entry.sent.trim());
      if (!words_kept && element.value !== control.value) element.value = control.value;
      entry.shown = element.value;
    } else {
      const text = element.tagName === 'P' ? control.name : control.value === undefined ? '' : control.value;
      if (element.textContent !== text) element.textContent = text;
    }
  }

  function place(element, control) {
    const [x, y, w, h] = control.box;
    element.style.transform = `translate(${x}px, ${y}px)`;
    element.style.width = `${w}px`;
    element.style.height = `${h}px`;
  }

  // The words of a note stand behind what they are about, and describe it.
  function write_note(element, control, entry) {
    if (!control.note) {
      entry.note?.remove();
      entry.note = null;
    } else {
      entry.note ??= document.createElement('p');
      entry.note.id = `note ${control.id}`.replaceAll(' ', '-');
      entry.note.dataset.note = control.id;
      if (entry.note.textContent !== control.note) entry.note.textContent = control.note;
      place(entry.note, control);
    }
    const about = [entry.note?.id, ...(control.about ?? '').split(' ').filter(Boolean).map(id_of)].filter(Boolean).join(' ');
    attribute(element, 'aria-describedby', about || undefined);
  }
  const id_of = (id) => `mirror-${id}`.replaceAll(' ', '-');

  function write(element, control, entry, focus) {
    place(element, control);
    element.id = id_of(control.id);
    if (element.tagName !== 'P') {
      attribute(element, 'aria-label', control.value && element.tagName === 'BUTTON' ? `${control.name}: ${control.value}` : control.name);
    }
    write_note(element, control, entry);
    attribute(element, 'aria-keyshortcuts', control.keys);
    attribute(element, 'aria-level', control.level);
    if (element.tagName === 'BUTTON') {
      attribute(element, 'aria-disabled', control.disabled);
      element.disabled = control.disabled === true && control.id !== focus;  // the focus would be lost
    }
    if (element.tagName === 'BUTTON' || element.tagName === 'INPUT') element.tabIndex = control.tab === false ? -1 : 0;
    if (CHOSEN[control.role]) attribute(element, CHOSEN[control.role], control.chosen === true);
    if (control.role === 'tab') attribute(element, 'aria-controls', control.chosen && groups.has('part part.sheet') ? id_of('part.sheet') : undefined);
    if (control.role === 'number') attribute(element, 'aria-invalid', control.note ? true : undefined);
    // Out of sight in a scrolled part: still there for the keyboard, but no finger can meet it.
    if (element.className === 'words') element.style.pointerEvents = control.seen ? '' : 'none';
    write_value(element, control, entry);
  }

  function group(key, role, label, by) {
    let element = groups.get(key);
    if (!element) {
      element = document.createElement('div');
      groups.set(key, element);
    }
    attribute(element, 'role', role);
    attribute(element, 'aria-label', label);
    attribute(element, 'aria-labelledby', by && id_of(by));
    return element;
  }
  function part(id, parts) {
    const { role, name, by } = parts.find((one) => one.id === id);
    const element = group(`part ${id}`, role, name, by);
    element.id = id_of(id);
    return element;
  }
  // Tabs, radio buttons and others stand in a group of their own, which has the group's name; the parts of an item in that,
  // and it in its list, of which only some items are here; all of it in a part of the page. From outside to inside.
  const GROUP_ROLES = { tab: 'tablist', radio: 'radiogroup', button: 'group', toggle: 'group' };
  function groups_of(control, parts) {
    const out = control.part ? [part(control.part, parts)] : [];
    if (control.list) {
      const item = group(`item ${control.item}`, 'listitem');
      attribute(item, 'aria-posinset', control.place);
      attribute(item, 'aria-setsize', control.of);
      return [...out, group('list', 'list', control.list), item];
    }
    const role = control.group && GROUP_ROLES[control.role];
    return role ? [...out, group(`group ${control.part} ${control.group}`, role, control.group)] : out;
  }

  function forget(entry) {
    entry.note?.remove();
    entry.element.remove();
  }
  function entry_of(control) {
    let entry = known.get(control.id);
    if (entry && entry.role === control.role) return entry;
    if (entry) forget(entry);
    entry = { element: MAKERS[control.role](), note: null, role: control.role, text: '', sent: '', shown: '' };
    entry.element.dataset.id = control.id;
    known.set(control.id, entry);
    listen(entry.element, control.id);
    return entry;
  }

  // Puts `element` behind what was put into `parent` last, if it is not there already.
  function put(parent, element, last) {
    const before = last.get(parent);
    const place = before ? before.nextSibling : parent.firstChild;
    if (place !== element) parent.insertBefore(element, place);
    last.set(parent, element);
  }

  function update({ place: at, focus, parts, controls }) {
    const held = root.contains(document.activeElement) ? document.activeElement : null;
    updating = true;
    // First what is gone: what stays is then in its order already, and need not be moved, which would cost it the focus.
    const present = new Set(controls.map((control) => control.id));
    for (const [id, entry] of known) {
      if (present.has(id)) continue;
      known.delete(id);
      forget(entry);
    }
    const round = new Map(controls.map((control) => [control, groups_of(control, parts)])), rounds = new Set([...round.values()].flat());
    for (const [key, element] of groups) {
      if (rounds.has(element)) continue;
      groups.delete(key);
      element.remove();
    }
    const last = new Map();
    for (const control of controls) {
      const entry = entry_of(control);
      const text = JSON.stringify(control);
      if (entry.text !== text) {
        entry.text = text;
        write(entry.element, control, entry, focus);
      }
      let parent = root;
      for (const element of round.get(control)) {
        if (!last.has(element)) {
          put(parent, element, last);
          last.set(element, null);
        }
        parent = element;
      }
      put(parent, entry.element, last);
      if (entry.note) put(parent, entry.note, last);
    }
    updating = false;
    follow(focus, held);
    announcer.hear(at, controls);
  }

  // Where the program has the focus, there it is, also where an element was made anew or moved.
  function follow(focus, held) {
    const element = known.get(focus)?.element ?? (held?.isConnected ? held : null);
    if (element && document.activeElement !== element) element.focus({ preventScroll: true });
  }

  // Arrow keys move a slider by the step that the program gave it.
  root.addEventListener('keydown', (event) => {
    const element = event.target, step = Number(element.dataset.step || 0);
    if (element.type !== 'range' || !step) return;
    const steps = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
    if (steps === undefined) return;
    event.preventDefault();
    enter(element, element.dataset.id, String(element.valueAsNumber + steps * step));
  });

  return { update, connect: (to) => { call = to; } };
})();
