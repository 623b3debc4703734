// The page that lights the cutting table. The maker puts four pins onto the corners of a rectangle on the table and measures
// a square there; then the coat that the studio handed over is shown at true scale. Where a line lies in the picture is the
// press's business (core/table, by way of web/press.js): this page draws the shapes that it gets. Before it stand its words
// (assets/cloth.txt), cloth_kept.js and cloth_remote.js.
//
//   start -> set-up -> check -> show        and in another window of this browser: remote
const one = (id) => document.getElementById(id);
const { press: THREAD, pressProgram: PROGRAM } = document.currentScript.dataset;
const END_OF_FIELD = '\x1f', END_OF_RECORD = '\x1e';
const HANDED = 'coatwright-table';        // in session storage: what the studio handed over
const MM_IN_INCH = 25.4;
const COARSE_MM = 1.5;  // a pixel that a line cannot be cut by
const AWAY_MS = 3500;

// {0} is the first filling, as in fill() of core/base/words.h.
const say = (key, ...fillings) => WORDS[key].replace(/\{(\d)\}/g, (_, n) => fillings[n]);
const records_of = (text) => text.split(END_OF_RECORD).slice(0, -1).map((record) => record.split(END_OF_FIELD).slice(0, -1));

// ---- what is known ---------------------------------------------------------------------------------------------

const coat = { ids: [], title: '', unit: 'in', cloths: [] };  // cloths: {title, laid, size, pieces: [{name, x, y}], shift}
// Lengths on the table in mm, pins in CSS px of the window.
const table = { wide: 0, high: 0, pins: null, mending: [1, 0, 1], window: '', name: '' };
const view = { cloth: 0, piece: -1, alone: false, quarters: 0, ground: 'dark', line: 2, blank: false };
let at = '';       // start, set-up, check, show, remote
let square = 0;    // side of the check's, mm
let fault = '';    // of the set-up, as it was last drawn

// ---- the press -------------------------------------------------------------------------------------------------

const press = (() => {
  const waiting = [];
  let thread = null, failed = null;
  function fail(key) {
    failed = key;
    one('late').hidden = true;
    tell_problem(say(key));
    while (waiting.length) waiting.shift()(null);
  }
  function ask(message) {
    if (failed) return Promise.resolve(null);
    return new Promise((resolve) => {
      waiting.push(resolve);
      if (!thread) {
        thread = new Worker(THREAD);
        thread.onmessage = ({ data }) => {
          if (data.missing) return fail("light.no-press");
          if (data.broken) return fail("light.broken");
          return waiting.shift()(data);
        };
        thread.onerror = (event) => { event.preventDefault(); fail("light.no-press"); };
      }
      thread.postMessage({ ...message, program: PROGRAM });
    });
  }
  const question = async (...fields) => {
    const answer = await ask({ ask: new TextEncoder().encode(fields.map((field) => field + END_OF_FIELD).join('')) });
    return answer ? records_of(answer.answer) : [];
  };
  return { open: (order) => ask({ table: new TextEncoder().encode(order) }), question };
})();

// A length as it is typed: {mm, words}, or {wrong: a sentence}.
async function length_of(typed) {
  const [[end, value, words] = ['wrong', '']] = await press.question('length', coat.unit, typed);
  return end === 'ok' ? { mm: Number(value), words } : { wrong: value };
}
const in_words = async (mm) => (await length_of(`${mm.toFixed(2)} mm`)).words;

// ---- the picture -----------------------------------------------------------------------------------------------

const picture = one('picture');
const COLOURS = {
  dark: { ground: '#000000', lit: '#ffffff', cut: '#f2c14e', other: '#8fb8d8', name: '#ffffff' },
  light: { ground: '#ffffff', lit: '#111111', cut: '#a63b25', other: '#2a5d94', name: '#111111' },
};
const ratio = () => [picture.width / innerWidth, picture.height / innerHeight];
const set_up_numbers = () => {
  const [x, y] = ratio();
  return [table.wide, table.high, ...table.pins.flatMap((pin) => [pin[0] * x, pin[1] * y]), ...table.mending].join(' ');
};
const with_picture = (...numbers) => [set_up_numbers(), picture.width, picture.height, ...numbers].join(' ');

function fit_picture() {
  const wide = Math.max(1, Math.round(innerWidth * devicePixelRatio)), high = Math.max(1, Math.round(innerHeight * devicePixelRatio));
  if (picture.width !== wide) picture.width = wide;
  if (picture.height !== high) picture.height = high;
}

function paint(records) {
  const pen = picture.getContext('2d');
  const colours = COLOURS[at === 'show' ? view.ground : 'dark'];
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.fillStyle = at === 'show' && view.blank ? '#000000' : colours.ground;
  pen.fillRect(0, 0, picture.width, picture.height);
  if (at === 'show' && view.blank) return;
  // What is cut next lies over everything else.
  for (const [what, first, lit, ...rest] of records.slice(1).sort((a, b) => a[2] - b[2])) {
    pen.globalAlpha = at !== 'show' || lit === '1' || view.piece < 0 ? 1 : 0.6;
    if (what === 'shape') {
      pen.fillStyle = lit === '1' && ['cut', 'slit', 'check', 'rectangle'].includes(first) ? colours.lit : ['cut', 'slit'].includes(first) ? colours.cut : colours.other;
      pen.fill(new Path2D(rest[0]));
    } else {
      pen.setTransform(...rest.map(Number));
      pen.fillStyle = colours.name;
      pen.font = '600 1px Cabin, system-ui, sans-serif';
      pen.textAlign = 'center';
      pen.fillText(first, 0, 0);
      pen.setTransform(1, 0, 0, 1, 0, 0);
    }
  }
  pen.globalAlpha = 1;
}

const grid_step = () => (coat.unit === 'in' ? 2 * MM_IN_INCH : 50);
const cloth_now = () => coat.cloths[view.cloth];
function question_now() {
  if (at === 'set-up') return ['grid', with_picture(view.line, grid_step())];
  if (at === 'check') return ['check', with_picture(view.line, square)];
  const { shift, pieces } = cloth_now();
  return ['lay', with_picture(view.line, view.cloth, Math.min(view.piece, pieces.length - 1), view.alone ? 1 : 0, view.quarters, ...shift)];
}

// Of what changes faster than it can be drawn, the newest.
const DRAWN = ['set-up', 'check', 'show'];
let drawing = false, wanted = false;
async function draw() {
  wanted = true;
  if (drawing || !table.pins || !DRAWN.includes(at)) return;
  drawing = true;
  while (wanted) {
    wanted = false;
    if (!DRAWN.includes(at)) break;
    const answer = await press.question(...question_now());
    const [end, ...told] = answer[0] || ['fault', ''];
    fault = end === 'fault' ? told[0] : '';
    if (at === 'set-up') tell_set_up(end, told);
    paint(fault ? [] : answer);
  }
  drawing = false;
  picture.dataset.drawn = String(Number(picture.dataset.drawn || 0) + 1);
}

function tell_problem(sentence) {
  one('problem').textContent = sentence;
  one('problem').hidden = !sentence;
}
const short_mm = (mm) => (mm < 1 ? mm.toFixed(2) : mm.toFixed(1));
function tell_set_up(end, [finest, coarsest]) {
  const told = fault ? say("light.fault." + fault) : '';
  if (one('problem').textContent !== told) tell_problem(told);
  one('to-check').disabled = Boolean(fault);
  if (end !== 'ok') return;
  const [a, b] = [short_mm(Number(finest)), short_mm(Number(coarsest))];
  const pixel = a === b ? say("light.pixel", a) : say("light.pixels", a, b);
  const line = Number(coarsest) > COARSE_MM ? `${pixel} ${say("light.coarse")}` : pixel;
  if (one('resolution').textContent !== line) one('resolution').textContent = line;
}

// ---- from one to the other ---------------------------------------------------------------------------------------

const FOCUS = { 'set-up': 'set-up-title', check: 'check-title', show: 'piece' };
const PANEL = { start: '', 'set-up': '', check: 'right', show: 'below', remote: '' };
function go(to) {
  at = to;
  document.body.dataset.at = to;
  for (const id of ['start', 'set-up', 'check', 'show', 'remote']) one(id).hidden = id !== to;
  one('pins').hidden = to !== 'set-up';
  one('place').hidden = to === 'start' || to === 'remote';
  one('panel').dataset.place = PANEL[to];
  tell_problem('');
  stay();
  if (FOCUS[to]) one(FOCUS[to]).focus({ preventScroll: true });
  draw();
  tell_remote();
}

// The window as it stands: of another one nothing is true.
const window_now = () => [innerWidth, innerHeight, devicePixelRatio, screenX, screenY, screen.width, screen.height, visualViewport ? visualViewport.scale : 1].join(' ');
let window_seen = '';
function look_at_window() {
  const now = window_now();
  if (now === window_seen) return;
  window_seen = now;
  fit_picture();
  if (at === 'show') {
    ask_check(say("light.check-again"));
    return;
  }
  if (at === 'check' && table.window !== now) clear_check();
  place_pins();
  draw();
}
function watch_window() {
  window_seen = window_now();
  for (const event of ['resize', 'orientationchange', 'fullscreenchange']) addEventListener(event, look_at_window);
  if (visualViewport) visualViewport.addEventListener('resize', look_at_window);
  setInterval(look_at_window, 1000);  // another screen or zoom, where no event tells
}
async function fill_screen() {
  try {
    await document.documentElement.requestFullscreen({ navigationUI: 'hide' });
    return true;
  } catch {
    return false;
  }
}

// ---- start -------------------------------------------------------------------------------------------------------

const mm = (wide, high) => [wide, high];
const inches = (wide, high) => [wide * MM_IN_INCH, high * MM_IN_INCH];
const RECTANGLES = [['A4', mm(297, 210)], ['A3', mm(420, 297)], ['A2', mm(594, 420)], ['A1', mm(841, 594)], ['letter', inches(11, 8.5)], ['tabloid', inches(17, 11)],
  ['mat', inches(18, 12)], ['mat', inches(24, 18)], ['mat', inches(36, 24)], ['mat', mm(900, 600)]];

async function list_rectangles() {
  const options = [];
  for (const [name, [wide, high]] of RECTANGLES) {
    const size = say("light.size", await in_words(wide), await in_words(high));
    options.push(new Option(name === 'mat' ? say("light.size-mat", size) : `${name} · ${size}`, `${wide} ${high}`));
  }
  options.push(new Option(say("light.size-own"), ''));
  one('rectangle').replaceChildren(...options);
  const usual = coat.unit === 'in' ? RECTANGLES[7] : RECTANGLES[2];
  one('rectangle').value = usual[1].join(' ');
  await take_rectangle();
}
async function take_rectangle() {
  const [wide, high] = one('rectangle').value.split(' ').map(Number);
  if (!high) return one('wide').focus();
  one('wide').value = await in_words(wide);
  one('high').value = await in_words(high);
  [one('wide').dataset.mm, one('high').dataset.mm] = [wide, high];
  return undefined;
}
// What is typed counts; a size that was chosen counts as it is, not as its words round it.
async function side_of(field) {
  if (field.dataset.mm) return { mm: Number(field.dataset.mm) };
  return length_of(field.value);
}

async function begin() {
  const filled = fill_screen();  // within the press that asked for it
  const [wide, high] = [await side_of(one('wide')), await side_of(one('high'))];
  const wrong = wide.wrong || high.wrong || (![wide.mm, high.mm].every((side) => side >= 100 && side <= 3000) && say("light.fault.rectangle-size"));
  if (wrong) {
    if (await filled) document.exitFullscreen();
    return tell_problem(wrong);
  }
  Object.assign(table, { wide: wide.mm, high: high.mm, mending: [1, 0, 1], name: '' });
  await settle_in(filled);
  table.pins = usual_pins();
  place_pins();
  go('set-up');
  return undefined;
}
// Waits until the window is as large as it becomes.
async function settle_in(filled) {
  const full = await filled;
  await new Promise((resolve) => { setTimeout(resolve, 100); });
  look_at_window();
  one('full-told').textContent = full ? '' : say("light.no-full");
  one('full-told').hidden = full;
  for (const cloth of coat.cloths) cloth.shift = null;
}
function usual_pins() {
  const room = 0.62;
  const scale = Math.min(room * innerWidth / table.wide, room * innerHeight / table.high);
  const x = Math.round(0.5 * (innerWidth - scale * table.wide)), y = Math.round(0.5 * (innerHeight - scale * table.high));
  return [[x, y], [innerWidth - x, y], [innerWidth - x, innerHeight - y], [x, innerHeight - y]];
}

// ---- the pins ------------------------------------------------------------------------------------------------------

const KEY_STEP = 0.5;  // px of the picture: whole ones would leave points a pixel off, half ones half a pixel
const PIN_WORDS = ["light.pin-1", "light.pin-2", "light.pin-3", "light.pin-4"];
function make_pins() {
  one('pins').replaceChildren(...PIN_WORDS.map((_, i) => {
    const pin = document.createElement('button');
    pin.className = i > 1 ? 'pin low' : 'pin';
    pin.id = `pin-${i + 1}`;
    pin.append(Object.assign(document.createElement('b'), { textContent: String(i + 1) }));
    pin.setAttribute('aria-describedby', 'pin-help');
    let grip = null;
    // A second finger that comes onto the pin moves nothing.
    pin.addEventListener('pointerdown', ({ pointerId, clientX, clientY }) => {
      if (grip) return;
      pin.setPointerCapture(pointerId);
      grip = { pointerId, x: clientX - table.pins[i][0], y: clientY - table.pins[i][1] };
    });
    pin.addEventListener('pointermove', ({ pointerId, clientX, clientY }) => {
      if (grip?.pointerId === pointerId) move_pin(i, clientX - grip.x, clientY - grip.y);
    });
    for (const end of ['pointerup', 'pointercancel', 'lostpointercapture']) {
      pin.addEventListener(end, ({ pointerId }) => { if (grip?.pointerId === pointerId) grip = null; });
    }
    pin.addEventListener('keydown', (event) => {
      const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
      if (!way || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      const step = (event.shiftKey ? 10 : KEY_STEP) / devicePixelRatio;
      move_pin(i, table.pins[i][0] + step * way[0], table.pins[i][1] + step * way[1]);
    });
    return pin;
  }));
}
// A corner of the table may lie a little outside the picture; its pin must stay where it can be got hold of.
function move_pin(i, x, y) {
  table.pins[i] = [Math.min(innerWidth, Math.max(0, x)), Math.min(innerHeight, Math.max(0, y))];
  table.mending = [1, 0, 1];
  clear_check();
  place_pins();
  draw();
}
function place_pins() {
  if (!table.pins) return;
  [...one('pins').children].forEach((pin, i) => {
    const [x, y] = table.pins[i];
    pin.style.left = `${x}px`;
    pin.style.top = `${y}px`;
    pin.setAttribute('aria-label', say("light.pin", i + 1, say(PIN_WORDS[i]), rounded(x), rounded(y)));
  });
}

// ---- the check -----------------------------------------------------------------------------------------------------

const LENGTHS = ['across', 'along', 'diagonal'];
function clear_check() {
  table.window = '';
  for (const id of LENGTHS) one(id).value = '';
  one('verdict').textContent = one('verdict').className = '';
  one('mend').hidden = one('true').hidden = true;
}
async function ask_check(sentence = '') {
  clear_check();
  const [[, side] = []] = await press.question('side', [set_up_numbers(), grid_step()].join(' '));
  square = Number(side) || grid_step();
  one('check-how').textContent = say("light.check", await in_words(square), await in_words(Math.SQRT2 * square));
  place_pins();
  go('check');
  one('verdict').textContent = sentence;
  one('verdict').className = sentence ? 'wrong' : '';
}
const per_cent = (part) => {
  const size = Math.abs(100 * part).toFixed(1);
  return part > 0 ? say("light.long", size) : say("light.short", size);
};
let found_mending = null;
async function judge() {
  tell_problem('');
  const read = [];
  for (const id of LENGTHS) {
    const length = await length_of(one(id).value);
    if (!one(id).value.trim()) return tell_problem(say("light.three"));
    if (length.wrong) return tell_problem(length.wrong);
    read.push(length.mm);
  }
  const [[end, ...numbers] = ['too-far-off']] = await press.question('read', [square, ...table.mending, ...read].join(' '));
  const [across, along, diagonal, ...mending] = numbers.map(Number);
  found_mending = mending;
  const lines = [["light.off-across", across], ["light.off-along", along], ["light.off-diagonal", diagonal]];
  const off = lines.filter(([, part]) => Math.abs(part) > 0.001).map(([key, part]) => say(key, per_cent(part))).join(', ');
  one('verdict').textContent = end === 'true' ? say("light.true", (Math.max(1, 0.004 * square)).toFixed(0)) : end === 'off' ? say("light.off", off) : say("light.too-far-off");
  one('verdict').className = end === 'true' ? 'good' : 'wrong';
  one('mend').hidden = end !== 'off';
  one('true').hidden = end !== 'true';
  table.window = end === 'true' ? window_now() : '';
  return undefined;
}
function mend() {
  table.mending = found_mending;
  clear_check();
  one('verdict').textContent = say("light.mended");
  draw();
  one('across').focus();
}

// ---- the coat on the cloth -------------------------------------------------------------------------------------------

function show_coat() {
  if (table.window !== window_now()) return ask_check(say("light.check-again"));
  coat.cloths.forEach((cloth, n) => { cloth.shift ||= home(n); });
  go('show');
  show_view();
  return undefined;
}
function piece_words() {
  const { pieces, title, laid } = cloth_now();
  if (!laid) return say("light.not-laid", title);
  return view.piece < 0 ? say("light.whole", pieces.length) : say("light.piece", view.piece + 1, pieces.length, pieces[view.piece].name);
}
function show_view() {
  const { pieces } = cloth_now();
  view.piece = Math.min(view.piece, pieces.length - 1);
  if (is_pieces()) view.alone = true;
  one('cloth').value = String(view.cloth);
  one('alone').checked = view.alone;
  one('alone').disabled = is_pieces();
  one('blank').setAttribute('aria-pressed', String(view.blank));
  one('previous').disabled = view.piece <= (is_pieces() ? 0 : -1);
  one('next').disabled = view.piece >= pieces.length - 1;
  if (one('piece').textContent !== piece_words()) one('piece').textContent = piece_words();
  draw();
  tell_remote();
}
const is_pieces = () => view.cloth === coat.cloths.length - 1;
function step(by) {
  view.piece = Math.max(is_pieces() ? 0 : -1, Math.min(cloth_now().pieces.length - 1, view.piece + by));
  show_view();
}
function choose_cloth(n) {
  view.cloth = n;
  view.piece = is_pieces() ? 0 : -1;
  view.alone = is_pieces();
  show_view();
}
const rounded = (value) => Math.round(10 * value) / 10;
function nudge(x, y, by) {
  const { shift } = cloth_now();
  cloth_now().shift = [rounded(shift[0] + by * x), rounded(shift[1] + by * y)];
  one('moved').textContent = say("light.moved", ...cloth_now().shift);
  show_view();
}
function turned([x, y], quarters) {
  for (let k = 0; k < quarters; ++k) [x, y] = [-y, x];
  return [x, y];
}
function to_middle() {
  const piece = cloth_now().pieces[Math.max(0, view.piece)];
  if (!piece) return;
  const [x, y] = turned([piece.x, piece.y], view.quarters);
  cloth_now().shift = [rounded(0.5 * table.wide - x), rounded(0.5 * table.high - y)];
  show_view();
}
// A lay begins at the first corner; a piece by itself lies in the middle.
const home = (n) => (n === coat.cloths.length - 1 ? [0.5 * table.wide, 0.5 * table.high] : [0, 0]);
const WAYS = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] };
const DEEDS = {
  previous: () => step(-1),
  next: () => step(1),
  middle: to_middle,
  turn: () => { view.quarters = (view.quarters + 1) % 4; show_view(); },
  home: () => { cloth_now().shift = home(view.cloth); view.quarters = 0; show_view(); },
  blank: () => { view.blank = !view.blank; show_view(); },
  cloth: () => choose_cloth((view.cloth + 1) % coat.cloths.length),
  alone: () => { view.alone = !view.alone; show_view(); },
};
function fill_cloths() {
  one('cloth').replaceChildren(...coat.cloths.map(({ title, size }, n) => new Option(size ? say("light.title-size", title, size) : title, String(n))));
}

// The controls go out of the picture when nobody uses them.
let leaving = 0;
function stay() {
  delete document.body.dataset.away;
  clearTimeout(leaving);
  if (at !== 'show') return;
  leaving = setTimeout(() => { if (at === 'show' && !one('more').open) document.body.dataset.away = 'yes'; }, AWAY_MS);
}

function on_key(event) {
  if (at !== 'show' || event.ctrlKey || event.altKey || event.metaKey) return;
  const field = ['INPUT', 'SELECT', 'TEXTAREA'].includes(event.target.tagName);
  const way = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' }[event.key];
  if (way && !field) nudge(...WAYS[way], event.shiftKey ? 10 : 1);
  else if (event.key === 'PageDown') step(1);
  else if (event.key === 'PageUp') step(-1);
  else if (event.key === 'Home' && !field) DEEDS.home();
  else return;
  event.preventDefault();
}

// ---- start -----------------------------------------------------------------------------------------------------------

function watch() {
  one('rectangle').addEventListener('change', take_rectangle);
  for (const id of ['wide', 'high']) one(id).addEventListener('input', () => { delete one(id).dataset.mm; one('rectangle').value = ''; });
  one('begin').addEventListener('click', begin);
  one('to-check').addEventListener('click', () => { if (!fault) ask_check(); });
  one('judge').addEventListener('click', judge);
  for (const id of LENGTHS) one(id).addEventListener('keydown', (event) => { if (event.key === 'Enter') judge(); });
  one('mend').addEventListener('click', mend);
  one('to-corners').addEventListener('click', () => go('set-up'));
  one('keep').addEventListener('click', keep);
  one('to-show').addEventListener('click', show_coat);
  for (const [id, deed] of Object.entries(DEEDS)) if (one(id).tagName === 'BUTTON') one(id).addEventListener('click', deed);
  for (const [id, way] of Object.entries(WAYS)) one(id).addEventListener('click', () => nudge(...way, Number(one('step').value)));
  one('cloth').addEventListener('change', () => choose_cloth(Number(one('cloth').value)));
  one('alone').addEventListener('change', () => { view.alone = one('alone').checked; show_view(); });
  one('ground').addEventListener('change', () => { view.ground = one('ground').value; show_view(); });
  one('line').value = String(view.line);
  one('line').addEventListener('change', () => { view.line = Number(one('line').value); show_view(); });
  one('full').addEventListener('click', async () => { if (!await fill_screen()) tell_problem(say("light.no-full")); });
  one('again').addEventListener('click', () => ask_check());
  one('open-remote').addEventListener('click', open_remote);
  one('open-remote').hidden = !channel;
  one('move-panel').addEventListener('click', () => {
    const places = ['', 'right', 'below', 'left', 'above'];
    one('panel').dataset.place = places[(places.indexOf(one('panel').dataset.place) + 1) % places.length];
  });
  for (const event of ['pointermove', 'pointerdown', 'keydown', 'focusin']) document.addEventListener(event, stay);
  document.addEventListener('keydown', on_key);
  if (channel) channel.onmessage = ({ data }) => obey(data);
  watch_window();
}

function handed_over() {
  try {
    return sessionStorage.getItem(HANDED) || '';
  } catch {
    return '';
  }
}

async function start() {
  document.title = one('title').textContent;
  addEventListener('hashchange', () => location.reload());
  if (token) return begin_remote();
  const refuse = (sentence) => { one('opening').hidden = one('late').hidden = true; tell_problem(sentence); };
  if (typeof WebAssembly === 'undefined') return refuse(one('opening').dataset.unable);
  const order = handed_over();
  if (!order) return refuse(say("light.none"));
  const opened = await press.open(order);
  if (!opened) return undefined;
  one('late').hidden = true;
  if (opened.refused) return refuse(opened.refused);
  for (const [what, ...fields] of records_of(opened.listed)) {
    if (what === 'coat') [coat.title, coat.unit] = fields;
    if (what === 'cloth') coat.cloths.push({ title: fields[0], laid: fields[1] === '1', size: fields[2], pieces: [], shift: null });
    if (what === 'piece') coat.cloths.at(-1).pieces.push({ name: fields[0], x: Number(fields[1]), y: Number(fields[2]) });
  }
  coat.ids = order.split(END_OF_RECORD).slice(1).map((ticket) => ticket.split(END_OF_FIELD)[0]).filter(Boolean);
  one('coat').textContent = coat.title;
  document.title = `${one('title').textContent} · ${coat.title}`;
  fit_picture();
  fill_cloths();
  make_pins();
  watch();
  await list_rectangles();
  list_kept();
  one('opening').hidden = true;
  go('start');
  watch_studio();
  document.documentElement.dataset.ready = 'yes';
  return undefined;
}
start();
