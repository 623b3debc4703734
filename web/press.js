// The press's thread: loads the program that makes forms (shell/hosts/press.cpp) and runs one order after the other, while
// the page goes on. What it is sent: {order, program: its address} or {pictures}; or of the cutting table (web/cloth.js)
// {table: an order} or {ask: a question of it}. What it answers, once for each: {missing} the program could not be loaded,
// {broken}, {refused: a sentence}, {wants: lines of text to be drawn}, or {bytes, type, rules, markup, told}, rules and markup
// being what a file that is HTML is made of; {listed} or {answer}, texts.
'use strict';

const END_OF_FIELD = '\x1f', END_OF_RECORD = '\x1e';
const REFUSED = 1, WANTS = 2;
let program;

async function load(address) {
  const answer = await fetch(address, { credentials: 'same-origin' });
  if (!answer.ok) throw new Error(`${answer.status}`);
  const module = await WebAssembly.compile(await answer.arrayBuffer());
  // What its C library would tell a system: that memory grew, that it ends. Nobody needs to know.
  const system = {};
  for (const { module: group, name } of WebAssembly.Module.imports(module)) (system[group] ||= {})[name] = () => 0;
  const { exports } = await WebAssembly.instantiate(module, system);
  exports._initialize();
  return exports;
}

function put(bytes) {
  const place = program.press_room(bytes.length);
  if (!place && bytes.length) throw new Error('no memory is left');
  new Uint8Array(program.memory.buffer, place, bytes.length).set(bytes);
}
const taken = (name) => new Uint8Array(program.memory.buffer, program[name](), program[`${name}_size`]()).slice();
const text = (name) => new TextDecoder().decode(taken(name));

function run() {
  const end = program.press_run();
  const told = text('press_told').trim().split('\n').join(' ');
  if (end === REFUSED) return { refused: told };
  if (end === WANTS) {
    const records = text('press_out').split(END_OF_RECORD).slice(0, -1).map((record) => record.split(END_OF_FIELD));
    return { wants: records.map(([words, weight, size, colour]) => ({ words, bold: weight === 'bold', size: Number(size), colour })) };
  }
  return { bytes: taken('press_out'), type: text('press_type'), rules: text('press_rules'), markup: text('press_markup'), told };
}

function open_table(order) {
  put(order);
  program.press_order();
  return program.press_table() === REFUSED ? { refused: text('press_told').trim() } : { listed: text('press_out') };
}
function ask_table(question) {
  put(question);
  program.press_ask();
  return { answer: text('press_out') };
}

async function answer({ order, program: address, pictures, table, ask }) {
  try {
    program ||= await load(address);
  } catch {
    return { missing: true };
  }
  try {
    if (table) return open_table(table);
    if (ask) return ask_table(ask);
    if (order) {
      put(order);
      program.press_order();
    }
    for (const { frame: [left, top, width, height], pixels } of pictures || []) {
      put(pixels);
      program.press_picture(left, top, width, height);
    }
    return run();
  } catch {
    return { broken: true };
  }
}

self.onmessage = async ({ data }) => { self.postMessage(await answer(data)); };
