// What tests of keeping do again and again.
import { until } from './studio.mjs';

// The open ticket's dog gets a name, and the page has had time to keep it.
export async function rename(studio, name) {
  await studio.station('Measure');
  await studio.control('textbox', 'Dog’s name').fill(name);
  await until(() => studio.has('button', new RegExp(`^Ticket: ${name}`)));
  await studio.page.evaluate(() => window.coatwright.stored());
}
export async function reloaded(studio) {
  await studio.page.reload();
  await studio.ready();
}
