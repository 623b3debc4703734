// What both tests of the exchange ask of a client.
import { ticket } from './tickets.mjs';

// A dog whose neck and loin a client is to take.
export const dog = (changes = {}) => ticket({ ...changes, readings: { neck: [], loin: [], 'foreleg-spacing': ['4 in'], 'foreleg-girth': ['7 in'] } });
export const kAsked = { 'Neck girth': ['16 3/4', '16 7/8'], 'Loin girth': ['21 1/2', '54,5 cm'] };
