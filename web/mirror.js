// The controls of the canvas as real elements that cannot be seen: for screen readers, keyboards and tests.
// The program sends them as a list; only what changed is touched, so that focus and announcements stay.
'use strict';

const mirror = (() => {
  const root = document.getElementById('mirror');
  const known = new Map();   // id → {element, role, control as JSON text, value sent last, value before the next}
  const groups = new Map();  // what stands round controls: key → element
  let call = () => {};

  const MAKERS = {
    button: () => button(), toggle: () => button(), fold: () => button(), tab: () => button('tab'), radio: () => button('radio'),
    slider: () => input('range'), text: () => input('text', 'words'), number: () => input('text', 'number'),
    status: () => plain('status'), heading: () => plain('heading'), img: () => plain('img'),
  };
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
    return element;
  }
  function plain(role) {
    const element = document.createElement('div');
    element.setAttribute('role', role);
    if (role === 'heading') element.setAttribute('aria-level', '2');
    return element;
  }

  function listen(element, id) {
    element.addEventListener('focus', () => call('coatwright_focus', id, element.matches(':focus-visible') ? 1 : 0));
    element.addEventListener('blur', () => call('coatwright_focus', '', 0));
    if (element.tagName === 'BUTTON') {
      element.addEventListener('click', () => call('coatwright_act', id));
      return;
    }
    if (element.tagName !== 'INPUT') return;
    element.addEventListener('input', () => enter(element, id, element.value));
    element.addEventListener('keydown', (event) => {
      if (event.key !== 'Enter') return;
      event.preventDefault();
      if (element.className === 'number') enter(element, id, element.value + '\n');
      else if (element.className === 'words') element.blur();
    });
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
      const text = control.role === 'status' ? control.name : control.value === undefined ? '' : control.value;
      if (element.textContent !== text) element.textContent = text;
    }
  }

  function write(element, control, entry) {
    const [x, y, w, h] = control.box;
    element.style.transform = `translate(${x}px, ${y}px)`;
    element.style.width = `${w}px`;
    element.style.height = `${h}px`;
    attribute(element, 'aria-label', control.value && element.tagName === 'BUTTON' ? `${control.name}: ${control.value}` : control.name);
    attribute(element, 'aria-description', control.note);
    if (element.tagName === 'BUTTON') element.disabled = control.disabled === true;
    if (control.role === 'tab') attribute(element, 'aria-selected', control.chosen === true);
    else if (control.role === 'radio') attribute(element, 'aria-checked', control.chosen === true);
    else if (control.role === 'toggle') attribute(element, 'aria-pressed', control.chosen === true);
    else if (control.role === 'fold') attribute(element, 'aria-expanded', control.chosen === true);
    // Out of sight in a scrolled part: still there for the keyboard, but no finger can meet it.
    if (element.className === 'words') element.style.pointerEvents = control.seen ? '' : 'none';
    write_value(element, control, entry);
  }

  function group(key, role, label) {
    let element = groups.get(key);
    if (!element) {
      element = document.createElement('div');
      groups.set(key, element);
    }
    attribute(element, 'role', role);
    attribute(element, 'aria-label', label);
    return element;
  }
  // Tabs and radio buttons stand in a group of their own, which has the group's name; the parts of an item in that, and
  // it in its list, of which only some items are here. From outside to inside.
  const GROUP_ROLES = { tab: 'tablist', radio: 'radiogroup' };
  function groups_of(control) {
    if (control.list) {
      const item = group(`item ${control.item}`, 'listitem');
      attribute(item, 'aria-posinset', control.place);
      attribute(item, 'aria-setsize', control.of);
      return [group('list', 'list', control.list), item];
    }
    const role = control.group && GROUP_ROLES[control.role];
    return role ? [group(`group ${control.group}`, role, control.group)] : [];
  }

  function entry_of(control) {
    let entry = known.get(control.id);
    if (entry && entry.role === control.role) return entry;
    if (entry) entry.element.remove();
    entry = { element: MAKERS[control.role](), role: control.role, text: '', sent: '', shown: '' };
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

  function update(controls) {
    // First what is gone: what stays is then in its order already, and need not be moved, which would cost it the focus.
    const present = new Set(controls.map((control) => control.id));
    for (const [id, entry] of known) {
      if (present.has(id)) continue;
      known.delete(id);
      entry.element.remove();
    }
    const round = new Map(controls.map((control) => [control, groups_of(control)])), rounds = new Set([...round.values()].flat());
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
        write(entry.element, control, entry);
      }
      let parent = root;
      for (const element of round.get(control)) {
        if (!last.has(element)) {
          put(parent, element, last);
          last.set(element, null);
        }
        parent = element;
      }
      const is_new = !entry.element.isConnected;
      put(parent, entry.element, last);
      // A measure was opened: what is typed, pasted or dictated goes into its number.
      if (is_new && control.role === 'number') entry.element.focus({ preventScroll: true });
    }
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
