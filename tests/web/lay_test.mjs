// The Lay station in a browser: laid, looked at, changed, printed.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { ticket } from './tickets.mjs';

const many = () => ticket({ choices: { collar: 'turned', pocket: 'patch' }, cloths: [{ use: 'shell', name: 'Rain stripe', width: 700 }] });

async function laid(studio) {
  await studio.station('Lay');
  await until(async () => (await studio.statuses()).includes('Laid'), 30000);
}

export default {
  'every cloth of the coat is laid, and then the page rests': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await laid(studio);
    assert.ok(await studio.has('radio', /^Shell cloth/));
    assert.ok(await studio.has('radio', /^Lining cloth/));
    await studio.sees(/^Length to buy: [\d⅛¼⅜½⅝¾⅞ ]+yd$/);
    await studio.rest();
    const before = await studio.page.evaluate(() => window.meter.frames);
    await new Promise((resolve) => setTimeout(resolve, 600));
    assert.equal(await studio.page.evaluate(() => window.meter.frames), before, 'nothing is drawn while nothing changes');
  },

  'a narrow cloth is named beside the piece that is too wide, and a wider one lays it': async (visitor) => {
    const studio = await visitor.studio();
    await laid(studio);
    await studio.press('radio', 'Cloth');
    await studio.set('textbox', 'Width', '6 in');
    await studio.sees(/needs .* across the shell.*Take a wider cloth/);
    await studio.set('textbox', 'Width', '60 in');
    await until(async () => !(await studio.statuses()).some((text) => text.includes('Take a wider cloth')));
    assert.equal((await studio.saved_ticket()).cloths[0].width, 1524);
  },

  'a search can be stopped, and goes on when it is asked to': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(many());
    await studio.station('Lay');
    await studio.sees(/^Looking for a shorter lay: \d+ %$/);
    await studio.press('button', 'Stop');
    await studio.sees('Laid');
    await studio.press('button', 'Improve');
    await studio.sees(/^Looking for a shorter lay: \d+ %$/);
  },

  'the diagram and the list go to the printer as one page': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(many());
    await studio.station('Lay');
    await until(() => studio.control('button', 'Save diagram and list').isEnabled());
    const download = studio.page.waitForEvent('download');
    await studio.press('button', 'Save diagram and list');
    const file = await download;
    assert.match(file.suggestedFilename(), /-lay\.html$/);
  },
};
