// The Lay station in a browser: laid, looked at, changed, printed.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { Fingers, until } from './studio.mjs';
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

  'a piece is dragged by a finger, its overlap is told, and undo and reset bring the found lay back': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await laid(studio);
    await studio.rest();
    const body = await studio.middle('button', 'Body'), band = await studio.middle('button', 'Belly band');
    const fingers = await Fingers.on(studio.page);
    await fingers.put(band);
    await fingers.move([body]);
    await fingers.lift();
    await studio.sees(/^Laid by hand on the shell.*overlap.*: 1\./);
    assert.ok(await studio.has('radio', /^Shell cloth, laid by hand/));
    assert.ok(!await studio.control('button', 'Print diagram and list').isEnabled());
    const kept = await studio.saved_ticket();
    assert.equal(kept.lays[0].cloth, 'shell');
    await studio.station('Lay');
    await studio.press('button', 'Undo');
    await until(async () => !await studio.has('radio', /laid by hand/));
    await studio.press('button', 'Redo');
    await until(() => studio.has('radio', /laid by hand/));
    await studio.press('button', 'Lay it for me again');
    await until(async () => !await studio.has('radio', /laid by hand/));
    await until(() => studio.control('button', 'Print diagram and list').isEnabled());
  },

  'coats from the rack are laid on the same cloth, told apart by name, and one that is deleted is missed by name': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(ticket({ dog: 'Hawser' }));
    await studio.open_ticket(ticket({ dog: 'Gale' }));
    await laid(studio);
    await studio.press('button', 'Lay other coats with it');
    await studio.press('button', /^Lay with it: Bosun/);
    await until(() => studio.has('button', /^Bosun: Body/));
    await studio.press('button', /^Lay with it: Hawser/);
    await until(() => studio.has('button', /^Hawser: Belly band/));
    if (await studio.has('button', 'Stop')) await studio.press('button', 'Stop');
    await until(async () => (await studio.statuses()).includes('Laid'), 60000);
    for (const dog of ['Gale', 'Bosun', 'Hawser']) assert.ok(await studio.has('button', new RegExp(`^${dog}: Body`)), dog);
    assert.ok(!await studio.has('button', /^Lay with it: /), 'all of them are in it');
    await studio.press('radio', 'To buy');
    await studio.sees(/^Shell cloth.*The 3 coats need .* together/);
    assert.equal((await studio.saved_ticket())['laid-with'].length, 2);
    await studio.press('button', /^Ticket: /);
    await studio.press('button', /^Delete: Hawser/);
    await studio.station('Lay');
    await studio.press('radio', 'Lay');
    await studio.sees(/no longer on the rack.*Hawser/);
    await until(async () => !await studio.has('button', /^Hawser: Body/));
    assert.ok(await studio.has('button', /^Bosun: Body/), 'the others stay');
    await until(() => studio.control('button', 'Print diagram and list').isEnabled());
    await studio.press('button', /^Take out: Bosun/);
    await until(() => studio.has('button', 'Body'));
    await studio.press('button', 'Undo');
    await until(() => studio.has('button', /^Bosun: Body/));
  },
};
