// The page's side of shell/hosts/page.h: feeds the program with sizes, pointers, keys and files, and does what it asks.
// No drafting rule, number or sentence lives here.
'use strict';

const canvas = document.getElementById('canvas');
const status_line = document.getElementById('status');
const file_field = document.getElementById('file');
const page_state = { frames: 0, running: false, scheduled: false, timer: 0, lost: false };

function stop_with(sentence) {
  document.getElementById('late').hidden = true;
  status_line.hidden = false;
  status_line.textContent = sentence;
}
window.addEventListener('error', (event) => {
  stop_with(`Coatwright stopped: ${event.message || 'a file could not be loaded'}. Reload the page to go on.`);
}, true);

// ---- calls into the program ------------------------------------------------------------------------------

function call(name, ...values) {
  if (!page_state.running) return undefined;
  const result = call_program(name, values);
  if (name !== 'coatwright_frame') request_frame();
  return result;
}

// Texts go by the program's heap, where there is room for what somebody pasted: its stack has none.
function call_program(name, values) {
  const texts = [];
  const numbers = values.map((value) => {
    if (typeof value !== 'string') return value;
    const bytes = bytes_of(value), place = Module._malloc(bytes.length + 1);
    if (!place) throw new Error('no memory is left for a text');
    Module.HEAPU8.set(bytes, place);
    Module.HEAPU8[place + bytes.length] = 0;
    texts.push(place);
    return place;
  });
  try {
    return Module[`_${name}`](...numbers);
  } finally {
    texts.forEach((place) => Module._free(place));
  }
}

// A call that takes bytes, after and before further values. The program lends the room for them; where it has none, it
// has said so.
function call_with_bytes(name, bytes, { before = [], after = [] } = {}) {
  const place = Module._coatwright_room(bytes.length);
  if (place) {
    Module.HEAPU8.set(bytes, place);
    call_program(name, [...before, place, bytes.length, ...after]);
  }
  request_frame();
}

// Between two portions of work, so that fingers, keys and frames come in between.
const breaths = new MessageChannel();
const waiting_for_breath = [];
breaths.port1.onmessage = () => waiting_for_breath.shift()();
function breath() {
  return new Promise((resolve) => {
    waiting_for_breath.push(resolve);
    breaths.port2.postMessage(0);
  });
}

// Draws when something changed, and not at all otherwise.
function request_frame() {
  if (page_state.scheduled || !page_state.running) return;
  page_state.scheduled = true;
  requestAnimationFrame(draw_frame);
}
function draw_frame() {
  page_state.scheduled = false;
  clearTimeout(page_state.timer);
  if (page_state.lost) return;
  const again = call('coatwright_frame', performance.now());
  if (again !== undefined && again >= 0) page_state.frames += again & 2 ? 1 : 0;
  if (again & 1) request_frame();
  if (again & 4) {
    // A search goes on between frames, a slice at a time, so that fingers and keys come in between.
    page_state.scheduled = true;
    page_state.timer = setTimeout(draw_frame, 0);
  }
}

// ---- size: the one place where CSS pixels become device pixels -------------------------------------------

// `exact`: the canvas's device pixels as the browser counts them, if it does. It knows how edges were rounded at odd
// ratios; where it disagrees by more than that (as under an emulated ratio), the ratio itself counts.
function fit_canvas(exact) {
  const box = canvas.getBoundingClientRect();
  const sides = [box.width, box.height].map((css, i) => {
    const whole = Math.round(css * devicePixelRatio);
    return exact && Math.abs(exact[i] - css * devicePixelRatio) < 2 ? exact[i] : whole;
  });
  if (sides[0] && sides[1]) call('coatwright_resize', box.width, box.height, sides[0], sides[1]);
}
function watch_size() {
  const observer = new ResizeObserver((entries) => {
    const counted = entries[0].devicePixelContentBoxSize;
    fit_canvas(counted && [counted[0].inlineSize, counted[0].blockSize]);
  });
  try {
    observer.observe(canvas, { box: 'device-pixel-content-box' });
  } catch {
    observer.observe(canvas);
  }
  // A zoom or a move to another screen may change the ratio alone.
  const watch_ratio = () => {
    matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener('change', () => { fit_canvas(); watch_ratio(); }, { once: true });
  };
  watch_ratio();
}

// ---- pointers and keys: one source of events --------------------------------------------------------------

const CONTACTS = { pointerdown: 0, pointermove: 1, pointerup: 2, pointercancel: 3 };

function on_pointer(event) {
  if (event.pointerType === 'mouse' && event.type !== 'pointermove' && event.button !== 0) return;
  const contact = CONTACTS[event.type];
  if (contact === 0) {
    if (event.target === canvas) canvas.setPointerCapture(event.pointerId);
    if (document.activeElement && document.activeElement !== document.body) document.activeElement.blur();
  }
  const moves = contact === 1 && event.getCoalescedEvents ? event.getCoalescedEvents().slice(-1) : [];
  const last = moves[0] || event;
  call('coatwright_pointer', contact, event.pointerId, event.pointerType === 'touch' ? 1 : 0, last.clientX, last.clientY, event.timeStamp);
  // Answered at once, so that what needs the maker's own touch (printing, a file) happens inside it.
  if (contact === 2) draw_frame();
}
function watch_pointers() {
  // What begins with a finger on a field may be a swipe, so the program hears of it; a tap opens the field as ever. One that
  // is typed in has its fingers to itself.
  const on_fields = new Set();
  const is_field = ({ target, pointerType }) => pointerType === 'touch' && target.className === 'words' && target !== document.activeElement;
  for (const type of Object.keys(CONTACTS)) {
    document.addEventListener(type, (event) => {
      if (type === 'pointerdown' && is_field(event)) on_fields.add(event.pointerId);
      if (event.target === canvas || on_fields.has(event.pointerId)) on_pointer(event);
      if (CONTACTS[type] > 1) on_fields.delete(event.pointerId);
    });
  }
  for (const type of ['touchstart', 'touchmove', 'gesturestart', 'contextmenu']) {
    canvas.addEventListener(type, (event) => event.preventDefault(), { passive: false });
  }
  document.getElementById('studio').addEventListener('wheel', (event) => {
    event.preventDefault();
    const unit = event.deltaMode === 1 ? 24 : event.deltaMode === 2 ? 400 : 1;
    call('coatwright_wheel', event.clientX, event.clientY, event.deltaX * unit, event.deltaY * unit, event.ctrlKey ? 1 : 0);
  }, { passive: false });
}
// Alt and a figure go to a station, on every keyboard: some type other signs with it.
const jump_of = (event) => (event.altKey && !event.ctrlKey && !event.metaKey && /^Digit[0-6]$/.test(event.code) ? `Alt+${event.code.at(-1)}` : '');
function watch_keys() {
  document.addEventListener('keydown', (event) => {
    const third_level = event.getModifierState('AltGraph');  // types signs such as ⅜, and may look like Ctrl+Alt
    if (event.defaultPrevented || event.isComposing) return;
    const jump = third_level ? '' : jump_of(event);
    if (jump) {
      event.preventDefault();
      call('coatwright_key', jump, 0, 0);
      return;
    }
    if (event.altKey && !third_level) return;
    const element = event.target, command = (event.ctrlKey || event.metaKey) && !third_level;
    const in_field = element.tagName === 'INPUT' && element.type === 'text';
    const undo = command && 'zZyY'.includes(event.key);
    if (undo && element.className !== 'words') event.preventDefault();
    else if (command || in_field && event.key !== 'Escape' && !(event.key === 'Enter' && element.className === 'words')) return;
    else if (element.tagName === 'BUTTON' && ['Enter', ' '].includes(event.key)) return;
    else if (element.type === 'range' && event.key.startsWith('Arrow')) return;
    else if (['Tab', 'Shift', 'Control', 'Alt', 'Meta'].includes(event.key)) return;
    if (in_field) event.preventDefault();  // the focus may go on, and the key with it
    call('coatwright_key', event.key, command ? 1 : 0, event.shiftKey ? 1 : 0);
  });
}

// ---- what the program asks for ------------------------------------------------------------------------------

const text_of = (bytes) => new TextDecoder().decode(bytes);
const bytes_of = (text) => new TextEncoder().encode(text);
function save_file(name, type, bytes) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
async function copy_text(text) {
  try {
    await navigator.clipboard.writeText(text);
    call('coatwright_tell', "ui.text-copied");
  } catch {
    call('coatwright_tell', "ui.text-not-copied");
  }
}
async function paste_text() {
  try {
    take_text(await navigator.clipboard.readText());
  } catch {
    call('coatwright_tell', "ui.paste-refused");
  }
}
// The coat for the page that lights the table: a window that this one opens gets a copy of its session storage.
function open_cloth(order) {
  try {
    sessionStorage.setItem('coatwright-table', order);
    if (window.open('cloth.html')) return;
  } catch { /* no storage */ }
  call('coatwright_tell', "ui.cloth-unopened");
}
function open_mail(subject, text) {
  const link = document.createElement('a');
  link.rel = 'noopener noreferrer';
  link.href = `mailto:?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(text.replace(/\n/g, '\r\n'))}`;
  link.click();
}
// The palette of the last visit. Where the browser keeps nothing, each visit begins by day.
function remember_look(look) {
  try { localStorage.setItem('look', look); } catch { /* not kept */ }
}
function remembered_look() {
  try { return localStorage.getItem('look'); } catch { return null; }
}
const ANSWERS = {
  mirror: (bytes) => mirror.update(JSON.parse(text_of(bytes))),
  keep: (bytes) => keeper.keep(JSON.parse(text_of(bytes))),
  history: (bytes) => keeper.send_history(text_of(bytes)),
  'take-pen': () => pen.take(),
  install: () => keeper.install(),
  save: (bytes, name, type) => save_file(name, type, bytes),
  press: (bytes, name) => forms.ask(bytes, name, forms.SAVE),
  'press-share': (bytes, name) => forms.ask(bytes, name, forms.SHARE),
  'press-print': (bytes, name) => forms.ask(bytes, name, forms.PRINT),
  'press-stop': () => forms.stop(),
  print: (bytes, rules) => { print_view.prepare(text_of(bytes), rules); print_view.show(); },
  'print-ready': (bytes, rules) => print_view.prepare(text_of(bytes), rules),
  'ask-file': () => file_field.click(),
  'photo-ask': (bytes, ticket, camera) => photos.ask(ticket, text_of(bytes), camera),
  'photo-show': (bytes, ticket) => photos.show(ticket, text_of(bytes)),
  'photo-read': (bytes, ticket) => photos.read(ticket, text_of(bytes)),
  'photo-keep': (bytes, ticket, id) => photos.keep(ticket, id, text_of(bytes)),
  share: (bytes, title) => navigator.share({ title, text: text_of(bytes) }).catch(() => {}),  // closed without a choice
  copy: (bytes) => copy_text(text_of(bytes)),
  mail: (bytes, subject) => open_mail(subject, text_of(bytes)),
  'ask-paste': () => paste_text(),
  open: (bytes) => window.open(text_of(bytes), '_blank', 'noopener'),
  cloth: (bytes) => open_cloth(text_of(bytes)),
  look: (bytes) => remember_look(text_of(bytes)),
  mark: (bytes) => letter.set('mark', text_of(bytes)),
  half: (bytes) => letter.set('half', text_of(bytes)),
  face: (bytes, weight) => letters.take(bytes, weight, () => call('coatwright_faces')),
  'no-graphics': () => stop_with('Coatwright needs WebGL 2 to draw, and this browser does not offer it.'),
};

function watch_files() {
  file_field.addEventListener('change', async () => {
    const files = [...file_field.files];
    file_field.value = '';
    await open_files(files);
  });
  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    const { files } = event.dataTransfer;
    if (files.length > 0) open_files([...files]);
    else take_text(event.dataTransfer.getData('text/uri-list') || event.dataTransfer.getData('text/plain'));
  });
}
// Text that came to the page rather than into one of its fields: a client's answer, or a ticket.
function take_text(text) {
  if (text) call_with_bytes('coatwright_text', bytes_of(text.slice(0, call('coatwright_most_text'))));
}
function watch_texts() {
  const MARK = 'cwSL';  // where a code begins (core/slip/code.h): it is no reading, whatever field has the focus
  document.addEventListener('paste', (event) => {
    const text = event.clipboardData.getData('text/plain');
    if (event.target.tagName === 'INPUT' && !(event.target.className === 'number' && text.includes(MARK))) return;
    event.preventDefault();
    take_text(text);
  });
  window.addEventListener('hashchange', take_link);
}
// What a link brought is taken out of the address, so that it is neither kept in the history nor read again.
function take_link() {
  const fragment = location.hash;
  if (fragment.length < 2) return;
  history.replaceState(null, '', location.pathname + location.search);
  call_with_bytes('coatwright_link', bytes_of(fragment.slice(0, call('coatwright_most_text'))));
}
// The program says how large a file may be; of a larger one it is told the size.
async function open_files(files) {
  for (const file of files) {
    try {
      if (file.size > call('coatwright_most_file')) call('coatwright_file_too_large', file.size);
      else call_with_bytes('coatwright_file', new Uint8Array(await file.arrayBuffer()));
    } catch {
      call('coatwright_tell', "ui.file-unreadable");  // it was moved, or belongs to somebody else
    }
  }
}
function watch_printing() {
  // The browser's own print command prints the sheets too. What was printed last stays in place: some browsers say that
  // printing is over while they still read it.
  window.addEventListener('beforeprint', () => { if (!print_view.printing()) call('coatwright_prepare_print'); });
}
function watch_context() {
  canvas.addEventListener('webglcontextlost', (event) => { event.preventDefault(); page_state.lost = true; });
  canvas.addEventListener('webglcontextrestored', () => { page_state.lost = false; call('coatwright_restore'); });
}

// ---- start ---------------------------------------------------------------------------------------------------

const opened = keeper.open();

async function start() {
  const stored = await opened;
  page_state.running = true;
  await keeper.begin(stored);
  mirror.connect(call);
  watch_size();
  fit_canvas();
  watch_pointers();
  watch_keys();
  watch_files();
  watch_texts();
  watch_printing();
  watch_context();
  if (remembered_look() === 'evening') call('coatwright_evening');
  call('coatwright_site', new URL('./', location.href).href, navigator.share ? 1 : 0, forms.shares_files() ? 1 : 0, print_view.keeps_pages() ? 1 : 0,
    matchMedia('(any-pointer: coarse)').matches ? 1 : 0);
  take_link();
  draw_frame();
  status_line.hidden = document.getElementById('late').hidden = true;
  document.documentElement.dataset.ready = 'yes';
  keeping_page = keep_page();
}

// Opens without a network from now on; where the browser has no workers, it works all the same while there is one.
let keeping_page = Promise.resolve();
async function keep_page() {
  try {
    const worker = await navigator.serviceWorker.register('studio_worker.js');
    await navigator.serviceWorker.ready;
    await worker.update();
  } catch { /* not kept */ }
}

// What tests may look at: nothing here changes anything.
window.coatwright = {
  ready: () => document.documentElement.dataset.ready === 'yes',
  frames: () => page_state.frames,
  stored: () => keeper.settled(),
  kept: () => keeping_page,
};

// eslint-disable-next-line no-unused-vars -- read by app.js
var Module = {
  canvas,
  letters,
  instantiateWasm: (imports, ready) => {
    program.then((compiled) => WebAssembly.instantiate(compiled, imports)).then(ready,
      (reason) => stop_with(`Coatwright stopped: ${reason.message}. Reload the page to go on.`));
    return {};
  },
  page: (kind, name, type, bytes) => ANSWERS[kind](bytes, name, type),
  postRun: [start],
  onAbort: (reason) => stop_with(`Coatwright stopped: ${reason}. Reload the page to go on.`),
};
