// The Lay station in a browser: laid, looked at, changed, printed.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { Fingers, until } from './studio.mjs';
import { giant, ticket } from './tickets.mjs';

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

  'while a search runs no frame takes longer than 50 ms, and fingers are answered': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(many());
    await laid(studio);
    await studio.page.evaluate(() => { window.meter.timing = true; window.meter.callbacks.length = 0; });
    await studio.press('button', 'Improve');
    await studio.sees(/^Looking for a shorter lay/);
    await new Promise((resolve) => setTimeout(resolve, 2000));
    await studio.press('radio', 'Cloth');
    await until(() => studio.has('textbox', 'Width'), 1000);
    const times = await studio.page.evaluate(() => { window.meter.timing = false; return window.meter.callbacks; });
    const over = times.filter((ms) => ms > 50);
    assert.ok(times.length > 5, `${times.length} frames`);
    assert.ok(over.length <= times.length / 50, `${over.length} of ${times.length} frames over 50 ms: ${over.map(Math.round)}`);
    await studio.press('radio', 'Lay');
    await studio.press('button', 'Stop');
    await studio.sees('Laid');
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
    await studio.sees(/no longer on the rack.*Hawser/);
    await until(async () => !await studio.has('button', /^Hawser: Body/));
    assert.ok(await studio.has('button', /^Bosun: Body/), 'the others stay');
    await until(() => studio.control('button', 'Print diagram and list').isEnabled());
    await studio.press('button', /^Take out: Bosun/);
    await until(() => studio.has('button', 'Body'));
    await studio.press('button', 'Undo');
    await until(() => studio.has('button', /^Bosun: Body/));
  },

  'a coat too wide for the cloth is named by its dog, and the others are laid': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(giant());
    await studio.open_ticket(ticket({ dog: 'Gale', cloths: [{ use: 'shell', width: 700 }] }));
    await laid(studio);
    await studio.press('button', 'Lay other coats with it');
    await studio.press('button', /^Lay with it: Windlass/);
    await studio.sees(/^Windlass.* is not in this lay\. Body needs .* across the shell/);
    await until(() => studio.control('button', 'Print diagram and list').isEnabled());
  },

  'a scrap is enough or too short, and says by how much': async (visitor) => {
    const studio = await visitor.studio();
    await laid(studio);
    await studio.press('radio', 'Cloth');
    await studio.set('textbox', 'Length, if it is a rest', '90 in');
    await studio.press('radio', 'Lay');
    await studio.sees(/^The rest of 90 in is enough; .* stays over\./);
    await studio.press('radio', 'Cloth');
    await studio.set('textbox', 'Length, if it is a rest', '10 in');
    await studio.press('radio', 'Lay');
    await studio.sees(/^The rest of 10 in is .* too short\./);
  },

  'a quote is printed once every price is typed, with the sum that stands on the page': async (visitor) => {
    const studio = await visitor.studio(devices.laptop, () => {
      window.print = () => { window.printed = document.getElementById('print').textContent; };
    });
    await laid(studio);
    await studio.press('radio', 'Quote');
    assert.ok(!await studio.control('button', 'Print the quote').isEnabled());
    await studio.sees(/^Prices missing/);
    for (const [name, value] of [['An hour’s work', '30'], [/^Minutes: Cut/, '45'], ['Price: thread, in all', '2']]) await studio.set('textbox', name, value);
    const prices = studio.page.getByRole('textbox', { name: /^Price: (?!thread)/ });
    for (let n = 0; n < await prices.count(); n += 1) await studio.set('textbox', await prices.nth(n).getAttribute('aria-label'), '3');
    await studio.press('radio', 'Cloth');
    for (const cloth of ['Shell', 'Lining']) {
      await studio.press('radio', cloth);
      await studio.set('textbox', /^Price/, '12');
    }
    await studio.press('radio', 'Quote');
    await until(() => studio.control('button', 'Print the quote').isEnabled());
    const total = (await studio.statuses()).find((text) => /^Total: \d/.test(text)).split(': ')[1];
    await studio.press('button', 'Print the quote');
    await studio.page.waitForFunction(() => window.printed !== undefined);
    const printed = await studio.page.evaluate(() => window.printed);
    assert.ok(printed.includes(total), `${total} in ${printed}`);
    assert.match(printed, /Bosun/);
  },
};
