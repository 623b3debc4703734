// A ticket that was made while coats were drafted by the first rule says so once, and shows its old outline.
import assert from 'node:assert/strict';

import { devices, drawn } from './studio_page.mjs';
import { until } from './studio.mjs';
import { of_former_rule } from './tickets.mjs';

const kTold = /^(The draft has changed: )?Coats have been drafted by a better rule/;
const kLegend = /^The old outline: finished edges/;
const told = async (studio) => (await studio.statuses()).some((text) => kTold.test(text));
const at_draft = async (studio) => {
  await studio.station('Draft');
  if (await studio.has('button', 'Put away')) await studio.press('button', 'Put away');  // that it is open
};
const rule = async (studio) => (await studio.saved_ticket())['drafted-by'];

async function seen_and_done_with(visitor, device) {
  const studio = await visitor.studio(device);
  await studio.open_ticket(of_former_rule());
  await at_draft(studio);
  await studio.sees(kTold);
  await studio.rest();
  const plain = await studio.page.screenshot();
  await studio.press('button', 'Show the old outline');
  await studio.sees(kLegend);
  assert.ok(await studio.has('img', /with their old outlines$/));
  await studio.rest();
  assert.ok(!plain.equals(await studio.page.screenshot()));
  assert.doesNotMatch((await studio.save('Pattern, SVG')).bytes.toString(), /class="former"/);

  await studio.station('Draft');
  await studio.sees(kLegend);
  await studio.press('button', 'Done with the old draft');
  await until(async () => !await told(studio));
  assert.equal(await rule(studio), 2);
  await studio.page.evaluate(() => window.coatwright.stored());
  await studio.page.reload();
  await studio.ready();
  await studio.station('Draft');
  await studio.rest();
  assert.equal(await told(studio), false);
  await studio.press('button', 'Undo');
  await studio.sees(kTold);
  assert.equal(await rule(studio), undefined);
}

export default {
  'it is told on a tablet, shown, put away for good, and undo brings it back': (visitor) => seen_and_done_with(visitor, drawn(devices.tablet)),

  'and on a phone': (visitor) => seen_and_done_with(visitor, drawn(devices.phone)),

  'a ticket of now says nothing': async (visitor) => {
    const studio = await visitor.studio();
    await studio.station('Draft');
    await studio.rest();
    assert.equal(await told(studio), false);
    assert.equal(await rule(studio), 2);
  },
};
