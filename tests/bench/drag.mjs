// node drag.mjs SITE [ENGINES] [ROUNDS]: what a frame costs while a handle is dragged on the board, in Chromium, Firefox and
// WebKitGTK without a graphics card, and what of it is ours. Beside it stands the floor: an empty page whose canvas is as
// large, cleared and given one triangle at every frame, measured in the same browser a moment before; a figure over the
// floor tells little of the machine. Of each figure the quietest of the rounds.
//
//   floor, drag    milliseconds from frame to frame; then the processors' milliseconds a frame, of all processes of the
//                  browser and its screen, which a busy machine changes little
//   page           the page's own scripts: input, draft, drawing, GL calls and mirror
//   gl, mirror     of these the calls into WebGL, and the mirror, in a run of its own, for clocks take time too
//   frames         drawn at each of the screen's; then at each frame drawn: updates of the mirror, draw calls, vertices
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

import { launch, serve } from '../web/studio_page.mjs';
import { firefox, webkit } from '../web/webdriver.mjs';

const [site, engines = 'chromium,firefox,webkit', rounds = '3'] = process.argv.slice(2);
const kSize = { width: 1180, height: 820 };

// Runs in both pages, as a script of theirs.
function bench() {
  const FRAMES = 120, WARM = 10;
  const next = () => new Promise(requestAnimationFrame);
  // Milliseconds from frame to frame while `each` does something at every one.
  async function frames_of(each, begun = () => {}) {
    for (let i = 0; i < WARM; i += 1) { each(i); await next(); }
    begun();
    const from = performance.now();
    for (let i = 0; i < FRAMES; i += 1) { each(i); await next(); }
    return (performance.now() - from) / FRAMES;
  }
  async function floor() {
    const canvas = document.body.appendChild(document.createElement('canvas'));
    Object.assign(canvas.style, { display: 'block', position: 'absolute', inset: 0, width: '100%', height: '100%' });
    Object.assign(canvas, { width: Math.round(innerWidth * devicePixelRatio), height: Math.round(innerHeight * devicePixelRatio) });
    const gl = canvas.getContext('webgl2', { alpha: false, antialias: false, depth: false });
    const program = gl.createProgram();
    for (const [kind, text] of [[gl.VERTEX_SHADER, 'void main() { gl_Position = vec4(gl_VertexID == 1 ? 0.1 : 0.0, gl_VertexID == 2 ? 0.1 : 0.0, 0.0, 1.0); }'],
      [gl.FRAGMENT_SHADER, 'precision mediump float; out vec4 colour; void main() { colour = vec4(1.0); }']]) {
      const shader = gl.createShader(kind);
      gl.shaderSource(shader, `#version 300 es\n${text}`);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.linkProgram(program);
    gl.useProgram(program);
    const ms = await frames_of((i) => {
      gl.clearColor(0.2 + 0.001 * i, 0.2, 0.3, 1);
      gl.clear(gl.COLOR_BUFFER_BIT);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
    });
    return { ms, canvas: `${canvas.width}×${canvas.height}` };
  }

  const watch = { timed: false };
  const reset = () => Object.assign(watch, { drawn: 0, calls: 0, vertices: 0, mirrored: 0, page: 0, gl: 0, mirror: 0 });
  // Counts, and while `timed` times, what the studio does; it knows nothing of that.
  function wrap(owner, name, into, count) {
    const real = owner[name];
    owner[name] = function (...given) {
      count?.(given);
      if (!watch.timed) return real.apply(this, given);
      const from = performance.now(), answer = real.apply(this, given);
      watch[into] += performance.now() - from;
      return answer;
    };
  }
  function watch_studio() {
    document.getElementById('canvas').setPointerCapture = () => {};  // no pointer is behind the events that are made here
    const pen = WebGL2RenderingContext.prototype, VERTEX = 20;  // bytes, of Dear ImGui's
    let in_part = false;  // a frame begins by clearing the whole canvas
    const counts = {
      clear: () => { watch.drawn += in_part ? 0 : 1; },
      enable: ([what]) => { in_part ||= what === pen.SCISSOR_TEST; },
      disable: ([what]) => { in_part &&= what !== pen.SCISSOR_TEST; },
      drawElements: () => { watch.calls += 1; },
      bufferData: ([kind, data, , , length]) => { if (kind === pen.ARRAY_BUFFER) watch.vertices += (length ?? data.byteLength) / VERTEX; },
    };
    for (const [name, { value }] of Object.entries(Object.getOwnPropertyDescriptors(pen))) {
      if (typeof value === 'function' && name !== 'constructor') wrap(pen, name, 'gl', counts[name]);
    }
    wrap(mirror, 'update', 'mirror', () => { watch.mirrored += 1; });
    const ask = window.requestAnimationFrame.bind(window);
    window.requestAnimationFrame = (work) => ask((now) => {
      const from = performance.now();
      work(now);
      watch.page += performance.now() - from;
    });
  }
  // Drags the handle up and down.
  async function drag(timed) {
    const canvas = document.getElementById('canvas');
    const { x, y, width, height } = document.querySelector('#mirror [data-id="handle.hem-depth"]').getBoundingClientRect();
    const at = { x: x + width / 2, y: y + height / 2 };
    const send = (type, dy) => canvas.dispatchEvent(new PointerEvent(type,
      { pointerId: 1, pointerType: 'mouse', clientX: at.x, clientY: at.y + dy, button: 0, buttons: 1, bubbles: true }));
    send('pointerdown', 0);
    watch.timed = timed;
    const ms = await frames_of((i) => send('pointermove', 5 + 12 * Math.sin(i / 8)), reset);
    const told = { ms, ...watch, elements: document.querySelectorAll('#mirror *').length };
    watch.timed = false;
    send('pointerup', 0);
    for (const what of ['calls', 'vertices', 'mirrored']) told[what] /= told.drawn;
    for (const what of ['drawn', 'page', 'gl', 'mirror']) told[what] /= FRAMES;
    return told;
  }
  reset();
  if (document.getElementById('mirror')) watch_studio();
  window.bench = { floor, drag, frames: WARM + FRAMES };
}

async function chromium() {
  const browser = await launch();
  const page = await (await browser.newContext({ viewport: kSize, deviceScaleFactor: 1 })).newPage();
  return { goto: (url) => page.goto(url), run: (body) => page.evaluate(`(() => { ${body} })()`), close: () => browser.close() };
}
async function by_driver(start) {
  const browser = await start();
  await browser.resize(kSize.width, kSize.height + 90);  // with the browser's own bars
  return { goto: (url) => browser.goto(url), run: (body) => browser.send('script', { script: body, args: [] }), close: () => browser.close() };
}
// With a clock as fine as the browser has one.
const kStart = { chromium, firefox: () => by_driver(() => firefox({ 'privacy.reduceTimerPrecision': false })), webkit: () => by_driver(webkit) };

const pause = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });
async function until(browser, body) {
  for (const end = Date.now() + 60000; !await browser.run(body);) {
    if (Date.now() > end) throw new Error(`not so: ${body}`);
    await pause(100);
  }
}

// What each process that this one has started took of the processors so far, in ticks of 10 ms.
function ticks_taken() {
  const all = new Map();
  for (const pid of readdirSync('/proc').filter((name) => /^\d+$/.test(name))) {
    try {
      const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1).split(' ');  // man 5 proc: ppid, utime, stime
      all.set(Number(pid), { parent: Number(fields[1]), ticks: Number(fields[11]) + Number(fields[12]) });
    } catch { /* it has ended */ }
  }
  const is_ours = (pid) => all.has(pid) && (all.get(pid).parent === process.pid || is_ours(all.get(pid).parent));
  return new Map([...all].filter(([pid]) => is_ours(pid)).map(([pid, { ticks }]) => [pid, ticks]));
}
function processor_ms(before, after) {
  let ticks = 0;
  for (const [pid, taken] of after) ticks += before.has(pid) ? taken - before.get(pid) : 0;
  return 10 * ticks;
}

async function round(browser, url) {
  const run = async (what) => {
    const before = ticks_taken(), told = await browser.run(`return window.bench.${what};`);
    return { ...told, cpu: processor_ms(before, ticks_taken()) / await browser.run('return window.bench.frames;') };
  };
  await browser.goto(`${url}floor.html`);
  const floor = await run('floor()');
  await browser.goto(url);
  await until(browser, 'return document.documentElement.dataset.ready === "yes";');
  await browser.run('document.querySelector(\'#mirror [data-id="station.draft"]\').click();');
  await until(browser, 'return Boolean(document.querySelector(\'#mirror [data-id="handle.hem-depth"]\'));');
  const runs = [];
  for (const timed of [false, true]) {
    await pause(2500);
    runs.push(await run(`drag(${timed})`));
  }
  return { floor: floor.ms, floor_cpu: floor.cpu, canvas: floor.canvas, ...runs[0], gl: runs[1].gl, mirror: runs[1].mirror };
}

const kColumns = [['canvas', 0], ['floor', 1], ['ms', 1], ['over', 2], ['floor_cpu', 1], ['cpu', 1], ['over_cpu', 2], ['page', 2], ['gl', 2], ['mirror', 2], ['drawn', 2], ['mirrored', 2], ['calls', 1], ['vertices', 0], ['elements', 0]];
async function measure(engine, url) {
  const browser = await kStart[engine]();
  const all = [];
  try {
    for (let i = 0; i < Number(rounds); i += 1) all.push(await round(browser, url));
  } finally {
    await browser.close();
  }
  const best = { ...all[0] };
  for (const what of ['floor', 'ms', 'floor_cpu', 'cpu', 'page', 'gl', 'mirror']) best[what] = Math.min(...all.map((one) => one[what]));
  best.over = best.ms / best.floor;
  best.over_cpu = best.cpu / best.floor_cpu;
  const cells = kColumns.map(([what, digits]) => (typeof best[what] === 'number' ? best[what].toFixed(digits) : best[what]).padStart(10));
  console.log(engine.padEnd(9) + cells.join(''));
}

// The site with the watching script in it, and without what would keep it from the next round.
const folder = mkdtempSync(join(tmpdir(), 'coatwright-'));
cpSync(resolve(site), folder, { recursive: true });
rmSync(join(folder, 'studio_worker.js'));
const script = '<script src="bench.js"></script>';
writeFileSync(join(folder, 'bench.js'), `(${bench})();`);
writeFileSync(join(folder, 'floor.html'), `<!doctype html><title>floor</title><body style="margin: 0">${script}</body>`);
const page = readFileSync(join(folder, 'index.html'), 'utf8');
writeFileSync(join(folder, 'index.html'), page.replace(/(<script src="page[^>]*><\/script>)/, `$1${script}`));
const server = await serve(folder);
console.log(' '.repeat(9) + ['canvas', 'floor,ms', 'drag,ms', '× floor', 'floor,cpu', 'drag,cpu', '× floor', 'page,ms', 'gl,ms', 'mirror,ms', 'frames', 'mirrors', 'calls', 'vertices', 'elements'].map((word) => word.padStart(10)).join(''));
for (const engine of engines.split(',')) await measure(engine, server.url);
server.stop();
rmSync(folder, { recursive: true });
console.log(`${cpus().length} × ${cpus()[0].model}, load ${loadavg()[0].toFixed(1)}, the quietest of ${rounds} rounds`);
