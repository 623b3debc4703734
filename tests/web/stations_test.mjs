// Going from place to place, by finger and by mouse, and how the page is looked at.
import assert from 'node:assert/strict';

import { shot } from './pixels.mjs';
import { devices, drawn } from './studio_page.mjs';
import { until } from './studio.mjs';

export default {
  'a tap on the tape opens each station, on every device, and the machine that draws it refuses nothing': async (visitor) => {
    for (const [name, device] of Object.entries(devices)) {
      const studio = await visitor.studio(drawn(device));
      for (const station of ['Print', 'Draft', 'Make', 'Fit', 'Lay', 'Measure']) {
        if (device.hasTouch) await studio.tap('tab', station);
        else await studio.click('tab', station);
        await until(async () => await studio.control('tab', station).getAttribute('aria-selected') === 'true');
        const chosen = await studio.page.getByRole('tab', { selected: true }).count();
        assert.equal(chosen, 1, `${name}: ${station}`);
        await studio.control('img', new RegExp(`^Board: .*${{ Measure: 'dog', Draft: 'pattern', Fit: 'places where a coat', Lay: 'cloth', Print: 'sheets', Make: 'pieces to sew' }[station]}`)).waitFor({ state: 'attached' });
        await studio.rest();
        assert.equal(await studio.page.evaluate(() => document.querySelector('canvas').getContext('webgl2').getError()), 0, `${name}: ${station}`);
      }
    }
  },

  'inches and centimetres change what is shown, not what was measured': async (visitor) => {
    const studio = await visitor.studio();
    const before = await studio.saved_ticket();
    await studio.station('Measure');
    await studio.tap('button', 'Show centimetres');
    await until(() => studio.has('button', /^Breast length: \d+([.,]\d)? cm/));
    const after = await studio.saved_ticket();
    assert.equal(after.unit, 'cm');
    assert.deepEqual(after.readings, before.readings);
  },

  'the evening palette is dark and the day palette comes back': async (visitor) => {
    const studio = await visitor.studio(drawn(devices.tablet));
    const brightness = async () => {
      await studio.rest();
      return studio.page.evaluate(async (png) => {
        const { data: bytes } = await pixels_of(png);
        return bytes.reduce((sum, byte, i) => sum + (i % 4 < 3 ? byte : 0), 0) / (bytes.length * 0.75);
      }, await shot(studio.page));
    };
    const day = await brightness();
    await studio.tap('button', 'Evening');
    await studio.control('button', 'Day').waitFor({ state: 'attached' });
    const evening = await brightness();
    assert.ok(day > 140 && evening < 80, `day ${day}, evening ${evening}`);
    await studio.tap('button', 'Day');
    await studio.control('button', 'Evening').waitFor({ state: 'attached' });
    assert.ok(Math.abs(await brightness() - day) < 1);
  },

  'the palette chosen last is there on the next visit': async (visitor) => {
    const studio = await visitor.studio();
    await studio.tap('button', 'Evening');
    await studio.control('button', 'Day').waitFor({ state: 'attached' });
    await studio.page.reload();
    await studio.ready();
    assert.ok(await studio.has('button', 'Day'));
    await studio.tap('button', 'Day');
    await studio.control('button', 'Evening').waitFor({ state: 'attached' });
    await studio.page.reload();
    await studio.ready();
    assert.ok(await studio.has('button', 'Evening'));
  },
};
