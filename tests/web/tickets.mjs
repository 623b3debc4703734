// Tickets of dogs for the browser tests: the page's own demo ticket, changed.
import { readFileSync } from 'node:fs';

export const demo = JSON.parse(readFileSync(new URL('../../assets/tickets/bosun.json', import.meta.url), 'utf8'));

// `changes` replaces fields; of readings, print and choices only those that are named.
export function ticket(changes = {}) {
  const inner = (name) => ({ ...demo[name], ...changes[name] });
  return { ...demo, ...changes, readings: inner('readings'), print: inner('print'), choices: inner('choices') };
}

// A neck taken loosely and low: common practice, no source (the dog of tests/core's practice test).
export const loose_neck = () => ticket({
  dog: 'Gale', unit: 'in',
  readings: { back: ['20 in'], neck: ['22 in'], chest: ['27 in'], drop: ['10 in'], breast: ['24 in'], loin: [], underline: [], weight: ['43 lb'] },
});

// No dog: the side drop would meet itself under the belly.
export const impossible = () => ticket({ dog: 'Fender', readings: { drop: ['22 in'] } });

// A giant breed's dog, toward the upper end of what is published.
export const giant = (print = {}) => ticket({
  dog: 'Windlass', unit: 'cm', print,
  readings: { back: ['86 cm'], neck: ['64 cm'], chest: ['107 cm'], drop: ['39 cm'], breast: ['104 cm'], loin: ['90 cm'], underline: [], weight: ['90 kg'] },
});
