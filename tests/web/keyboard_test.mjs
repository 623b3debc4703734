// The studio without a pointer.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';

const kStops = '#mirror button:not(:disabled), #mirror input:not(:disabled)';
const focused = (page) => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');

export default {
  'Tab reaches every control of every station and comes round': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    for (const station of ['Measure', 'Draft', 'Print']) {
      await studio.station(station);
      await studio.rest();
      const wanted = await studio.page.locator(kStops).evaluateAll((all) => all.map((one) => one.dataset.id));
      assert.ok(wanted.length > 12, station);
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

  'a whole ticket is taken from the keyboard alone': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const { keyboard } = studio.page;
    const tab_to = async (name) => {
      for (let i = 0; i < 80; i += 1) {
        if (name.test(await focused(studio.page))) return;
        await keyboard.press('Tab');
      }
      assert.fail(`Tab does not come to ${name}`);
    };
    await tab_to(/^Neck girth/);
    await keyboard.press('Enter');
    await studio.control('textbox', 'Neck girth').waitFor({ state: 'attached' });
    await keyboard.type('16 1/4');
    await keyboard.press('Enter');
    await until(() => studio.has('button', 'Take out the reading 16 1/4 in'));
    await tab_to(/^Draft$/);
    await keyboard.press('Enter');
    await studio.control('slider', 'Chest ease').waitFor({ state: 'attached' });
    await tab_to(/^Chest ease$/);
    const slider = studio.control('slider', 'Chest ease');
    const before = Number(await slider.inputValue());
    await keyboard.press('ArrowRight');
    await until(async () => Number(await slider.inputValue()) > before);
    await keyboard.press('ArrowLeft');
    await until(async () => Math.abs(Number(await slider.inputValue()) - before) < 25.4 / 16);  // a step lies on the tape's marks
    await tab_to(/^gentle wave$|gentle wave/);
    await keyboard.press(' ');
    await until(async () => await studio.control('radio', /gentle wave/).getAttribute('aria-checked') === 'true');
    await tab_to(/^Print$/);
    await keyboard.press('Enter');
    await studio.control('button', 'Sheets, SVG').waitFor({ state: 'attached' });
  },
};
