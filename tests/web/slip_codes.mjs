// The codes of slips once more, written from core/slip/code.h and slip.h alone, so that the tests do not ask the program
// what the program wrote.
import assert from 'node:assert/strict';

export const measures = ['back', 'neck', 'chest', 'drop', 'breast', 'loin', 'underline', 'weight', 'foreleg-spacing', 'foreleg-girth',
  'elbow-height', 'withers-height', 'neck-length', 'head-girth', 'throat', 'girth-place'];
// Those behind them came with version 2.
const of_version_1 = 14;
const version_of = (ids) => (ids.some((id) => measures.indexOf(id) >= of_version_1) ? 2 : 1);
const common = '0123456789 /.,';
const shorthands = [' in', ' cm', ' lb', ' kg', '½', '¼', '¾', '⅛', '⅜', '⅝', '⅞', ' mm', '"', '⅓'];

function crc32(bytes) {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
  }
  return (rest ^ 0xffffffff) >>> 0;
}

function code(head, body) {
  const frame = Buffer.from([head, body.length >> 8, body.length & 255, ...body]);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(Buffer.concat([Buffer.from('cwSL'), frame])));
  return `cwSL${Buffer.concat([frame, check]).toString('base64url')}z`;
}

const text = (words) => [Buffer.byteLength(words), ...Buffer.from(words)];

// { measures, unit, back, studio, dog, note, version, token }, each of them optional.
export function request({ asked = measures.slice(0, 8), unit = 'in', build = 0, back = '', studio = 'The Sail Loft', dog = 'Bosun',
  note = '', version = version_of(asked), token = 'AQIDBAUG' } = {}) {
  const bits = asked.reduce((sum, id) => sum | 1 << measures.indexOf(id), 0);
  const texts = [back, studio, dog, note].flatMap(text);
  return code(version, [...Buffer.from(token, 'base64url'), bits >> 8, bits & 255, (unit === 'cm' ? 1 : 0) | build << 1, ...texts]);
}

// The token of the request in a link.
export const token_in = (link) => Buffer.from(link.split('#cwSL')[1], 'base64url').subarray(3, 9).toString('base64url');

// An answer with bare numbers: { id: ['16 3/4', ...] }.
export function answer({ token, readings, unit = 'in', note = '' }) {
  const halves = [];
  for (const [id, typed] of Object.entries(readings)) {
    const number = measures.indexOf(id);
    halves.push(...(number < 14 ? [number] : [14, number - 14]), typed.length);
    for (const reading of typed) halves.push(...[...reading].map((c) => common.indexOf(c)), 15);
  }
  halves.push(15);
  if (halves.length % 2 === 1) halves.push(0);
  const bytes = [];
  for (let i = 0; i < halves.length; i += 2) bytes.push(halves[i] << 4 | halves[i + 1]);
  return code(0x80 | version_of(Object.keys(readings)), [...Buffer.from(token, 'base64url'), unit === 'cm' ? 1 : 0, ...bytes, ...text(note)]);
}

// The first code in a message, as { token, unit, readings: { id: [text, ...] }, note }.
export function answer_in(message) {
  const found = message.match(/cwSL([A-Za-z0-9_-]+)z/);
  assert.ok(found, `no code in: ${message}`);
  const bytes = Buffer.from(found[1], 'base64url');
  const length = bytes.readUInt16BE(1);
  assert.equal(bytes.length, length + 7);
  assert.equal(bytes.readUInt32BE(length + 3), crc32(Buffer.concat([Buffer.from('cwSL'), bytes.subarray(0, length + 3)])));
  const head = bytes[0];
  const body = bytes.subarray(3, length + 3);
  const answer = { token: body.subarray(0, 6).toString('base64url'), unit: body[6] & 1 ? 'cm' : 'in', readings: {}, note: '' };
  let at = 14;  // in half bytes
  const half = () => { const byte = body[at >> 1]; at += 1; return at & 1 ? byte >> 4 : byte & 15; };
  for (let number = half(); number !== 15; number = half()) {
    const readings = answer.readings[measures[number < 14 ? number : 14 + half()]] = [];
    for (let count = half(); count > 0; count -= 1) {
      const out = [];
      for (let h = half(); h !== 15; h = half()) {
        if (h < 14) out.push(...Buffer.from(common[h]));
        else {
          const value = half() << 4 | half();
          out.push(...(value < shorthands.length ? Buffer.from(shorthands[value]) : [value]));
        }
      }
      readings.push(Buffer.from(out).toString('utf8'));
    }
  }
  assert.equal(head, 0x80 | version_of(Object.keys(answer.readings)), 'an answer of the first version that can say it');
  const rest = body.subarray((at + 1) >> 1);
  const long = rest[0] === 255;
  answer.note = rest.subarray(long ? 3 : 1).toString('utf8');
  assert.equal(rest.length - (long ? 3 : 1), long ? rest.readUInt16BE(1) : rest[0]);
  return answer;
}
