// Tickets of dogs for the browser tests: the page's own demo ticket, changed.
import { readFileSync } from 'node:fs';

export const demo = JSON.parse(readFileSync(new URL('../../assets/tickets/bosun.json', import.meta.url), 'utf8'));

// `changes` replaces fields; of readings, print and choices only those that are named.
export function ticket(changes = {}) {
  const inner = (name) => ({ ...demo[name], ...changes[name] });
  return { ...demo, ...changes, readings: inner('readings'), print: inner('print'), choices: inner('choices') };
}

// As it was made while coats were drafted by the first rule: without the rule's number, and nobody asked for where the breastbone
// and the girth tape lie.
export function of_former_rule(changes = {}) {
  const { 'drafted-by': _, ...old } = ticket({ ...changes, readings: { throat: [], 'girth-place': [], ...changes.readings } });
  return old;
}

// A neck taken loosely and low: common practice, no source (the dog of tests/core's practice test).
export const loose_neck = () => ticket({
  dog: 'Gale', unit: 'in',
  readings: { back: ['20 in'], neck: ['22 in'], chest: ['27 in'], drop: ['10 in'], breast: ['24 in'], throat: [], 'girth-place': [], loin: [], underline: [], weight: ['43 lb'] },
});

// No dog: the side drop would meet itself under the belly.
export const impossible = () => ticket({ dog: 'Fender', readings: { drop: ['22 in'] } });

// A giant breed's dog, toward the upper end of what is published.
export const giant = (print = {}) => ticket({
  dog: 'Windlass', unit: 'cm', print,
  readings: { back: ['86 cm'], neck: ['64 cm'], chest: ['107 cm'], drop: ['39 cm'], breast: ['104 cm'], throat: [], 'girth-place': [], loin: ['90 cm'], underline: [], weight: ['90 kg'] },
});

// A teaching studio's rack of two or three busy years, as a backup: `count` cards of some hundred dogs and their coats, with
// notes, slips and repeated readings as they come together there. The same at every call.
export function busy_rack(count) {
  const dogs = ['Anchor', 'Bollard', 'Capstan', 'Davit', 'Ensign', 'Fathom', 'Gunwale', 'Halyard', 'Jib', 'Keel', 'Lanyard', 'Mizzen', 'Narrows',
    'Oar', 'Painter', 'Quay', 'Rowlock', 'Sextant', 'Tiller', 'Upwind', 'Valve', 'Winch', 'Yawl', 'Zephyr'];
  const coats = ['Deck coat', 'Winter coat', 'Rain coat', 'Harbour walk', 'Pupils’ coat', 'Second fitting'];
  const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
  let seed = 7;
  const chance = (n) => { seed = (seed * 48271) % 2147483647; return seed % n; };
  const id = () => Array.from({ length: 8 }, () => letters[chance(64)]).join('');
  const reading = (low, high) => `${low + chance(high - low)} ${chance(8)}/8 in`.replace(' 0/8', '');
  const tickets = [];
  for (let i = 0; i < count; i += 1) {
    const dog = `${dogs[i % dogs.length]} ${String(Math.floor(i / dogs.length)).padStart(3, '0')}`;
    const chest = 18 + chance(14);
    const readings = {
      ...demo.readings, back: [`${Math.round(chest * 0.74)} in`, `${Math.round(chest * 0.74)} 1/8 in`], neck: [`${Math.round(chest * 0.6)} in`],
      chest: [`${chest} in`, `${chest} 1/8 in`], drop: [reading(8, 9)], breast: [`${Math.round(chest * 0.86)} in`],
    };
    const notes = `Course ${i % 40}, table ${i % 7}. ${'Pulls to the left at the quay; the owner wants room for a harness. '.repeat(chance(5))}`;
    tickets.push({
      'coatwright-card': 2, id: id(), place: i % 3 === 0 ? 'archive' : 'rack', changed: 1700000000000 + i * 3600000,
      slips: Array.from({ length: chance(3) }, () => ({ token: id(), made: 1700000000000 + i * 3600000 })),
      ticket: ticket({ dog, name: coats[i % coats.length], notes, readings }),
    });
  }
  return { 'coatwright-rack': 1, saved: 1764086400123, tickets };
}
// The file as the studio writes it, one ticket a line.
export const backup_file = ({ tickets, ...head }) => Buffer.from(
  `${JSON.stringify(head).slice(0, -1)}, "tickets": [\n${tickets.map((one) => JSON.stringify(one)).join(',\n')}\n]}\n`);
