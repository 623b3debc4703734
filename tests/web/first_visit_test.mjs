// What someone sees who has never been here.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { demo } from './tickets.mjs';

const guidance = { Measure: 'Touch a tape line', Draft: 'Drag a round handle or a slider', Print: 'Touch a sheet to look at it' };

export default {
  'a first visit opens the demo ticket': async (visitor) => {
    const studio = await visitor.studio();
    assert.ok(await studio.has('button', `Ticket: ${demo.dog}, ${demo.name}`));
    assert.ok(await studio.has('button', /^Chest girth: \d+[⅛¼⅜½⅝¾⅞]? in/));
    assert.deepEqual(await studio.saved_ticket(), demo);
    await studio.station('Draft');
    await until(() => studio.has('slider', 'Hem depth, handle on the board'));
  },

  'each station says in one line what to do there': async (visitor) => {
    const studio = await visitor.studio(devices.tablet_upright);
    for (const [name, words] of Object.entries(guidance)) {
      await studio.station(name);
      await studio.sees(words);
    }
  },

  'guidance that was put away stays away': async (visitor) => {
    const studio = await visitor.studio();
    await studio.sees(guidance.Measure);
    await studio.tap('button', 'Put away');
    await until(async () => !await studio.has('button', 'Put away'));
    await studio.station('Draft');
    await studio.sees(guidance.Draft);
    await studio.station('Measure');
    assert.ok(!(await studio.statuses()).some((text) => text.includes(guidance.Measure)));
  },
};
