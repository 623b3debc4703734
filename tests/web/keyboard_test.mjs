// The studio without a pointer.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';

const kStops = '#mirror button:not(:disabled):not([tabindex="-1"]), #mirror input:not(:disabled):not([tabindex="-1"])';

export default {
  'Tab comes to every control that is a stop, and to one of each group': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    for (const station of ['Measure', 'Draft', 'Print']) {
      await studio.station(station);
      await studio.rest();
      const wanted = await studio.page.locator(kStops).evaluateAll((all) => all.map((one) => one.dataset.id));
      assert.ok(wanted.length > 8, station);
      const reached = new Set();
      for (let i = 0; i < wanted.length + 4; i += 1) {
        await studio.page.keyboard.press('Tab');
        const id = await studio.page.evaluate(() => document.activeElement?.dataset?.id ?? '');
        if (id) reached.add(id);
      }
      assert.deepEqual(wanted.filter((id) => !reached.has(id)), [], station);
    }
  },

  'what the keyboard is on is in sight and has a ring': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.station('Draft');
    await studio.control('slider', 'Turning gap').focus();
    await studio.rest();
    const { y, height } = await studio.box('slider', 'Turning gap');
    assert.ok(y >= 0 && y + height <= 768, `scrolled to ${y}`);
  },
};
