// The slip page: shows what the program (slip_page.cpp) reads from the link, keeps what is typed, and hands on what goes
// back. No rule and no sentence lives here; whatever came in a link is shown as text and as nothing else.
const one = (id) => document.getElementById(id);
const END_OF_FIELD = '\x1f', END_OF_RECORD = '\x1e';
const script = document.currentScript;
const READING_WORDS = ["slip.reading-1", "slip.reading-2", "slip.reading-3", "slip.reading-4", "slip.reading-5"];

let program = null;
let words = {};
let limits = {};   // of the note, a reading, the readings of a measure: what the program says
let slip = null;   // the request
let state = null;  // what the client did: this is kept in the browser
let keeps = true;

// ---- the program -----------------------------------------------------------------------------------------

async function load_program() {
  const answer = await fetch(script.dataset.program);
  if (!answer.ok) throw new Error(String(answer.status));
  const module = await WebAssembly.compile(await answer.arrayBuffer());
  // What its C library would tell a system: that memory grew, that it ends. Nobody needs to know.
  const system = {};
  for (const { module: group, name } of WebAssembly.Module.imports(module)) (system[group] ||= {})[name] = () => 0;
  program = (await WebAssembly.instantiate(module, system)).exports;
  program._initialize();
}

// Text in, records out.
function call(name, text = '') {
  const bytes = new TextEncoder().encode(text);
  const place = program.slip_input(bytes.length);
  if (place) {  // else there is more than it takes, and it has said so
    new Uint8Array(program.memory.buffer, place, bytes.length).set(bytes);
    program[name]();
  }
  const out = new Uint8Array(program.memory.buffer, program.slip_output(), program.slip_output_size());
  const records = new TextDecoder().decode(out).split(END_OF_RECORD).slice(0, -1);
  return records.map((record) => record.split(END_OF_FIELD).slice(0, -1));
}

const text_of_records = (records) => records.map((fields) => fields.map((f) => f + END_OF_FIELD).join('') + END_OF_RECORD).join('');
// Control characters cannot be shown and would end a field.
const plain = (text) => text.replace(/[\x00-\x09\x0b-\x1f\x7f-\x9f]/g, ' ');
// {0} is the first filling, {0|sheet|sheets} the word that follows it: as fill() in core/base/words.h.
const say = (key, ...fillings) => words[key].replace(/\{(\d)(?:\|([^|}]*)\|([^}]*))?\}/g,
  (_, n, one, more) => (more === undefined ? fillings[n] : `${fillings[n]}` === '1' ? one : more));

function readings_text() {
  const rows = slip.measures.map((m) => [m.id, ...state.readings[m.id].map((text) => (text.trim() ? plain(text) : ''))]);
  return text_of_records([['unit', state.unit], ['note', plain(state.note)], ...rows]);
}

// ---- what is kept ------------------------------------------------------------------------------------------

const place_kept = () => `coatwright-slip-${slip.token}`;

function keep() {
  if (!keeps) return;
  try {
    localStorage.setItem(place_kept(), JSON.stringify({ form: 1, ...state }));
  } catch {
    keeps = false;
    one('kept').textContent = say("slip.not-kept");
    one('kept').hidden = false;
  }
}

const fresh_state = () => ({ unit: slip.unit, chosen: false, sure: '', at: -1, note: '', readings: Object.fromEntries(slip.measures.map((m) => [m.id, ['', '']])) });

// What was kept is taken field by field: it may be of another version, or changed by hand.
function restored() {
  const fresh = fresh_state();
  let old = null;
  try {
    old = JSON.parse(localStorage.getItem(place_kept()));
  } catch { /* denied or damaged: begin anew */ }
  if (!old || old.form !== 1) return fresh;
  if (old.unit === 'in' || old.unit === 'cm') fresh.unit = old.unit;
  if (Number.isInteger(old.at) && old.at >= -1 && old.at <= slip.measures.length) fresh.at = old.at;
  if (typeof old.note === 'string') fresh.note = old.note.slice(0, limits.note);
  for (const { id } of slip.measures) {
    const typed = old.readings && old.readings[id];
    if (!Array.isArray(typed) || typed.length < 2 || typed.length > limits.readings) continue;
    if (typed.every((text) => typeof text === 'string' && text.length <= limits.reading)) fresh.readings[id] = typed;
  }
  fresh.chosen = Boolean(old.chosen);
  if (old.sure === fresh.unit) fresh.sure = old.sure;
  return fresh;
}
const has_readings = () => Object.values(state.readings).some((typed) => typed.some(Boolean));

// ---- screens -----------------------------------------------------------------------------------------------

// -1 the start, then the measures, then sending.
function go(at, remember = true) {
  state.at = at;
  keep();
  if (remember) history.pushState({ at }, '');
  show();
}

function show() {
  const measuring = state.at >= 0 && state.at < slip.measures.length;
  one('start').hidden = state.at !== -1;
  one('measure').hidden = !measuring;
  one('send').hidden = state.at !== slip.measures.length;
  one('progress').hidden = !measuring;
  if (measuring) show_measure();
  else if (state.at === -1) show_start();
  else show_send();
  scrollTo(0, 0);
  const heading = measuring ? 'name' : state.at === -1 ? 'who' : 'send-title';
  one(heading).focus({ preventScroll: true });
}

function show_start() {
  const { studio, dog } = slip;
  one('who').textContent = studio && dog ? say("slip.asks-for", studio, dog) : studio ? say("slip.asks", studio)
    : dog ? say("slip.asked-for", dog) : say("slip.asked");
  one('asked-note').hidden = !slip.note;
  one('note-from').textContent = say("slip.note-from");
  one('note-text').textContent = slip.note;
  one('count').textContent = has_readings() ? say("slip.resumed")
    : slip.measures.length === 1 ? say("slip.count-one") : say("slip.count", slip.measures.length, 2 * slip.measures.length);
  one('unit-asked').textContent = say("slip.unit-asked");
  one('unit-asked').hidden = one('unit-choice').hidden = state.chosen;
  one('begin').hidden = !state.chosen;
  one('begin').textContent = say(has_readings() ? "slip.go-on" : "slip.begin");
}

const svg = (name, attributes) => {
  const element = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
};

function draw_tape(id) {
  const drawing = one('drawing');
  if (!slip.drawing) {
    const [[, ...box], ...rest] = call('slip_drawing');
    const [x, y, w, h] = box.map(Number);
    const edge = 0.06 * w;
    drawing.setAttribute('viewBox', `${x - edge} ${y - edge} ${w + 2 * edge} ${h + 2 * edge}`);
    slip.drawing = { shapes: rest.filter((r) => r[0] === 'shape'), tapes: Object.fromEntries(rest.filter((r) => r[0] === 'tape').map((r) => [r[1], r[2]])) };
  }
  drawing.setAttribute('aria-label', say("slip.drawing"));
  drawing.replaceChildren(...slip.drawing.shapes.map(([, part, d]) => svg('path', { class: part, d })));
  if (slip.drawing.tapes[id]) drawing.append(svg('path', { class: 'run', d: slip.drawing.tapes[id] }));
}

const within = (name) => name.charAt(0).toLowerCase() + name.slice(1);

function show_measure() {
  const measure = slip.measures[state.at];
  const next = slip.measures[state.at + 1];
  one('progress').textContent = say("slip.progress", state.at + 1, slip.measures.length);
  one('name').textContent = measure.name;
  one('tape').textContent = measure.tape;
  one('next').textContent = next ? say("slip.next", within(next.name)) : say("slip.to-send");
  for (const radio of document.querySelectorAll('[name=unit]')) radio.checked = radio.value === state.unit;
  draw_tape(measure.id);
  show_fields();
  show_notes();
}

function unit_beside(measure, text) {
  if (/[a-z'"]/i.test(text)) return '';  // typed with its own
  if (measure.kind === 'weight') return state.unit === 'in' ? 'lb' : 'kg';
  return state.unit;
}

// The fields of the measure; the one that is typed in stays in place.
function show_fields() {
  const measure = slip.measures[state.at];
  const typed = state.readings[measure.id];
  one('readings').replaceChildren(...typed.map((text, i) => {
    const label = document.createElement('label');
    const field = document.createElement('input');
    const unit = document.createElement('i');
    label.append(say(READING_WORDS[i]));
    Object.assign(field, { type: 'text', inputMode: 'decimal', autocomplete: 'off', maxLength: limits.reading, value: text });
    field.setAttribute('enterkeyhint', 'next');
    field.setAttribute('aria-describedby', 'notes');
    unit.textContent = unit_beside(measure, text);
    const box = document.createElement('span');
    box.append(field, unit);
    label.append(box);
    field.addEventListener('input', () => set_reading(i, field.value));
    field.addEventListener('focus', () => { slip.field = i; show_fraction(); });
    field.addEventListener('keydown', (event) => { if (event.key === 'Enter') step_on(i); });
    return label;
  }));
  one('another').hidden = typed.length >= limits.readings || typed.some((text) => !text);
  slip.field = Math.max(0, typed.findIndex((text) => !text));
  show_fraction();
}

const field = (i) => one('readings').querySelectorAll('input')[i];

function set_reading(i, text) {
  const measure = slip.measures[state.at];
  const typed = state.readings[measure.id];
  typed[i] = text;
  state.sure = '';
  field(i).nextSibling.textContent = unit_beside(measure, text);
  one('another').hidden = typed.length >= limits.readings || typed.some((t) => !t);
  keep();
  show_fraction();
  show_notes();
}

function step_on(i) {
  const after = field(i + 1);
  if (after) after.focus();
  else go(state.at + 1);
}

// ---- fractions: text at the end of the field, read by the program like any other ------------------------------

const EIGHTHS = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'];
const FRACTION_AT_END = /\s*(\d+\s*[/⁄]\s*\d+|[⅛¼⅜½⅝¾⅞])\s*$/;

function show_fraction() {
  const measure = slip.measures[state.at];
  const text = state.readings[measure.id][slip.field] || '';
  one('fractions').hidden = state.unit !== 'in' || measure.kind === 'weight';
  [...one('fractions').children].forEach((button, n) => {
    button.setAttribute('aria-pressed', String(n > 0 && text.trimEnd().endsWith(EIGHTHS[n])));
  });
}
function set_fraction(n) {
  const i = slip.field;
  const whole = field(i).value.replace(/\s*(in|")\s*$/i, '').replace(FRACTION_AT_END, '').trimEnd();
  field(i).value = n === 0 ? whole : whole ? `${whole} ${EIGHTHS[n]}` : EIGHTHS[n];
  set_reading(i, field(i).value);
}
function make_fractions() {
  one('fractions').replaceChildren(...EIGHTHS.map((glyph, n) => {
    const button = document.createElement('button');
    button.textContent = glyph || '0';
    button.setAttribute('aria-label', n === 0 ? say("slip.whole") : say("slip.fraction", glyph));
    // The field keeps the focus, and a phone its keyboard.
    button.addEventListener('pointerdown', (event) => event.preventDefault());
    button.addEventListener('click', () => set_fraction(n));
    return button;
  }));
}

// ---- what is said of the readings ----------------------------------------------------------------------------

function looked() {
  const said = Object.fromEntries(slip.measures.map((m) => [m.id, { notes: [], value: '' }]));
  for (const [kind, id, ...rest] of call('slip_look', readings_text()).slice(1)) {
    if (!said[id]) continue;
    if (kind === 'value') said[id].value = rest[0];
    else if (!said[id].notes.some((note) => note[1] === rest[1])) said[id].notes.push(rest);
  }
  for (const about of Object.values(said)) {
    about.odd = about.notes.filter(([level]) => level === 'wrong' || level === 'check');
    if (about.odd.length) about.notes = about.odd;
  }
  return said;
}

// Slowly enough that a sentence is not said for every key.
let waiting = 0;
function show_notes() {
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    if (state.at < 0 || state.at >= slip.measures.length) return;
    const { notes } = looked()[slip.measures[state.at].id];
    const lines = notes.length ? notes : [['hint', say("slip.empty")]];
    const now = JSON.stringify(lines);
    if (one('notes').dataset.said === now) return;
    one('notes').dataset.said = now;
    one('notes').replaceChildren(...lines.map(([level, text]) => Object.assign(document.createElement('p'), { className: level, textContent: text })));
  }, 250);
}

// ---- sending ---------------------------------------------------------------------------------------------------

// A reading that no line breaks: 22 1/2 in.
const whole = (reading) => reading.replace(/ /g, '\u00a0');

function show_list() {
  const said = looked();
  one('list').replaceChildren(...slip.measures.map((measure, n) => {
    const row = document.createElement('li');
    const text = document.createElement('p');
    const name = document.createElement('b');
    const change = document.createElement('button');
    const typed = state.readings[measure.id].filter((t) => t.trim());
    name.textContent = measure.name;
    text.append(name, typed.length ? typed.map((t) => whole(`${t} ${unit_beside(measure, t)}`.trim())).join('; ') : say("slip.not-measured"));
    if (!typed.length) text.className = 'none';
    change.textContent = say(typed.length ? "slip.change" : "slip.take");
    change.setAttribute('aria-label', `${change.textContent} ${within(measure.name)}`);
    change.addEventListener('click', () => go(n));
    row.append(text, change, ...said[measure.id].odd.map(([, odd]) => Object.assign(document.createElement('p'), { className: 'said', textContent: odd })));
    return row;
  }));
  const taken = slip.measures.filter((m) => state.readings[m.id].some((t) => t.trim())).length;
  one('measured').textContent = say("slip.progress-all", taken, slip.measures.length);
}
function show_send() {
  one('note').value = state.note;
  one('done').textContent = '';
  hide_qr();
  show_list();
  prepare();
}

// Whether all readings look like those of the other unit, and nobody has said which is right.
function ask_for_unit() {
  const [, ...rest] = call('slip_other_unit', readings_text());
  const meant = rest[0] && rest[0][0] === 'unit' ? rest : [];
  const weighs = rest.find(([key]) => key === 'weighs');
  one('weighs').textContent = weighs ? say(state.unit === 'in' ? "slip.weighs-in" : "slip.weighs-cm", weighs[1]) : '';
  slip.meant = meant.slice(1).filter(([key]) => key !== 'weighs');
  if (!meant.length || state.sure === state.unit) return false;
  one('question-text').textContent = say(state.unit === 'in' ? "slip.question-in" : "slip.question-cm");
  for (const button of one('question').querySelectorAll('button')) button.textContent = say(button.value === 'in' ? "slip.were-inches" : "slip.were-centimetres");
  return true;
}
function answer_unit(unit) {
  if (unit !== state.unit) for (const [id, ...typed] of slip.meant) state.readings[id] = typed;
  state.unit = state.sure = unit;
  keep();
  show_send();
}

// The message as it would go now.
function prepare() {
  const [[result, code, lines]] = call('slip_answer', readings_text());
  const ok = result === 'ok';
  const asks = ok && ask_for_unit();
  one('problem').hidden = ok;
  one('problem').textContent = ok ? '' : code;
  one('ways').hidden = one('message').hidden = one('message-label').hidden = !ok || asks;
  one('question').hidden = !asks;
  if (!ok || asks) return;
  slip.link = new URL(`./#${code}`, location.href).href;
  slip.message = `${lines}\n\n${say("slip.message-open")}\n${slip.link}`;
  slip.subject = slip.dog ? say("slip.subject", slip.dog) : say("slip.subject-plain");
  one('message').value = slip.message;
  const { studio, way, address } = slip;
  one('destination').textContent = way === 'any' ? say("slip.destination-any")
    : studio ? say("slip.destination-named", studio, address) : say("slip.destination", address);
  one('share').hidden = !navigator.share;
  one('mail').hidden = way === 'phone';
  one('mail').href = `mailto:${encodeURIComponent(way === 'mail' ? address : '').replace('%40', '@')}?subject=${encodeURIComponent(slip.subject)}&body=${encodeURIComponent(slip.message)}`;
  one('text').hidden = way !== 'phone';
  if (way === 'phone') one('text').href = `sms:${address.replace(/[^+\d]/g, '')}?&body=${encodeURIComponent(slip.message)}`;
}

async function share() {
  try {
    await navigator.share({ title: slip.subject, text: slip.message });
    one('done').textContent = say("slip.shared");
  } catch { /* closed without a choice */ }
}
async function copy() {
  let copied = false;
  try {
    await navigator.clipboard.writeText(slip.message);
    copied = true;
  } catch {
    one('message').select();
    copied = document.execCommand('copy');
  }
  one('done').textContent = say(copied ? "slip.copied" : "slip.not-copied");
}

function hide_qr() {
  one('qr').hidden = true;
  one('qr').replaceChildren();
  one('show-qr').setAttribute('aria-expanded', 'false');
}
// Each module is a whole number of the screen's pixels, with four light ones all round.
function show_qr() {
  if (!one('qr').hidden) return hide_qr();
  const [[result, size, ...rows]] = call('slip_qr', slip.link);
  if (result !== 'ok') {
    one('done').textContent = size;
    return undefined;
  }
  one('qr').hidden = false;
  one('show-qr').setAttribute('aria-expanded', 'true');
  const modules = Number(size) + 8;
  const ratio = devicePixelRatio || 1;
  const pixels = Math.max(1, Math.floor(Math.min(one('qr').clientWidth, 560) * ratio / modules));
  const side = pixels * modules / ratio;
  const code = svg('svg', { viewBox: `0 0 ${modules} ${modules}`, width: side, height: side, role: 'img', 'aria-label': say("slip.qr") });
  code.append(svg('path', { fill: '#fff', d: `M0 0h${modules}v${modules}h-${modules}z` }));
  let d = '';
  rows.forEach((row, y) => { for (const run of row.matchAll(/1+/g)) d += `M${run.index + 4} ${y + 4}h${run[0].length}v1h-${run[0].length}z`; });
  code.append(svg('path', { fill: '#000', d }));
  one('qr').replaceChildren(code);
  // On the screen's grid, else the browser's smoothing would blur the modules.
  const box = code.getBoundingClientRect();
  const on_grid = (v) => Math.round(v * ratio) / ratio - v;
  code.style.transform = `translate(${on_grid(box.left + scrollX)}px, ${on_grid(box.top + scrollY)}px)`;
  one('qr').scrollIntoView({ block: 'nearest' });
  return undefined;
}

function change_unit(unit) {
  // What was typed keeps its meaning: it gets its unit before another is chosen.
  for (const [id, ...typed] of call('slip_settle', readings_text()).slice(1)) {
    if (state.readings[id]) state.readings[id] = typed;
  }
  state.unit = unit;
  keep();
  show_fields();
  show_notes();
}

function forget() {
  try {
    localStorage.removeItem(place_kept());
  } catch { /* nothing was kept */ }
  state = fresh_state();
  show();
  one('count').textContent = say("slip.deleted");
}

// ---- start -------------------------------------------------------------------------------------------------------

function watch() {
  one('begin').addEventListener('click', () => {
    const first_empty = slip.measures.findIndex((m) => !state.readings[m.id].some(Boolean));
    go(first_empty < 0 ? slip.measures.length : first_empty);
  });
  for (const button of one('unit-choice').children) {
    button.addEventListener('click', () => {
      state.unit = button.value;
      state.chosen = true;
      one('begin').click();
    });
  }
  for (const button of one('question').querySelectorAll('button')) button.addEventListener('click', () => answer_unit(button.value));
  one('next').addEventListener('click', () => go(state.at + 1));
  one('previous').addEventListener('click', () => go(state.at - 1));
  one('another').addEventListener('click', () => {
    const typed = state.readings[slip.measures[state.at].id];
    typed.push('');
    show_fields();
    field(typed.length - 1).focus();
  });
  for (const radio of document.querySelectorAll('[name=unit]')) radio.addEventListener('change', () => change_unit(radio.value));
  one('note').addEventListener('input', () => { state.note = one('note').value; keep(); prepare(); hide_qr(); });
  one('share').addEventListener('click', share);
  one('copy').addEventListener('click', copy);
  one('show-qr').addEventListener('click', show_qr);
  one('back-to-measures').addEventListener('click', () => go(0));
  one('delete').addEventListener('click', forget);
  addEventListener('popstate', (event) => { if (slip && event.state) { state.at = event.state.at; keep(); show(); } });
  addEventListener('hashchange', () => location.reload());
  // The same slip in another tab: what was typed there is what holds, and this tab stays on its screen.
  addEventListener('storage', (event) => {
    if (event.key !== place_kept() || event.newValue === null) return;
    state = { ...restored(), at: state.at };
    show();
  });
}

function open_slip() {
  const [[result, ...rest], ...measures] = call('slip_open', location.hash || ' ');
  if (result !== 'ok') {
    one('opening').textContent = location.hash.length > 1 ? rest[0] : say("slip.unread");
    return false;
  }
  const [unit, studio, dog, note, way, address, token] = rest;
  slip = { unit, studio, dog, note, way, address, token, field: 0,
    measures: measures.map(([, id, name, tape, kind]) => ({ id, name, tape, kind })) };
  return true;
}

// The page is seen before its program is compiled; a page in the background is not waited for.
const first_paint = () => new Promise((resolve) => {
  requestAnimationFrame(() => setTimeout(resolve));
  setTimeout(resolve, 300);
});

async function start() {
  const { failed, unable } = one('opening').dataset;
  const refuse = (sentence) => { one('opening').textContent = sentence; one('late').hidden = true; };
  try {
    await first_paint();
    await load_program();
  } catch {
    return refuse(typeof WebAssembly === 'undefined' ? unable : failed);
  }
  one('late').hidden = true;
  words = Object.fromEntries(call('slip_words').slice(1));
  limits = Object.fromEntries(call('slip_limits').slice(1).map(([name, most]) => [name, Number(most)]));
  one('note').maxLength = limits.note;
  if (open_slip()) {
    one('opening').hidden = true;
    one('title').textContent = document.title = slip.dog ? say("slip.title", slip.dog) : say("slip.title-plain");
    one('fingers').textContent = words["caution.fingers"];
    one('vet').textContent = words["caution.vet"];
    state = restored();
    keep();
    make_fractions();
    watch();
    history.replaceState({ at: state.at }, '');
    show();
  } else {
    addEventListener('hashchange', () => location.reload());
  }
  // Kept for use without a network from now on, and the newer one as soon as there is one.
  try {
    const worker = await navigator.serviceWorker.register('slip_worker.js', { scope: './slip.html' });
    await navigator.serviceWorker.ready;
    await worker.update();
  } catch { /* works all the same while there is a network */ }
  document.documentElement.dataset.ready = 'yes';
  return undefined;
}

start();
