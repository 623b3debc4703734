// The rack: every ticket of this browser, kept, found, copied, put away, and saved as one file.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { demo, giant, loose_neck, ticket } from './tickets.mjs';

const kMarkup = '<img src=x onerror=alert(1)>&"\'</text>';

const card = (dog) => new RegExp(`^Open ${dog}`);
const open_rack = async (studio) => {
  await studio.press('button', /^Ticket: /);
  await until(() => studio.has('heading', 'The rack'));
};
const titled = (studio, dog) => until(() => studio.has('button', new RegExp(`^Ticket: ${dog}`)));
const kept = (studio) => studio.page.evaluate(() => window.coatwright.stored());
// The dogs' names as their cards stand on the page.
const cards_in_order = (studio) => studio.page.getByRole('button', { name: /^Open .+,/ }).evaluateAll((all) => all
  .map((e) => ({ name: e.getAttribute('aria-label'), x: e.getBoundingClientRect().x, y: e.getBoundingClientRect().y }))
  .sort((a, b) => a.y - b.y || a.x - b.x).map((one) => one.name.match(/^Open ([^,]+),/)[1]));

async function three_dogs(studio) {
  await studio.open_ticket(ticket({ dog: 'Hawser', name: 'Gangway coat' }));
  await studio.open_ticket(ticket({ dog: 'Käpt’n Ölzeug' }));
}

export default {
  'every ticket hangs on the rack and opens with its own history after the page was left': async (visitor) => {
    const studio = await visitor.studio();
    await three_dogs(studio);
    await studio.press('button', 'Show centimetres');
    await until(() => studio.has('button', 'Show inches'));
    await kept(studio);
    await studio.page.reload();
    await studio.ready();
    await titled(studio, 'Käpt’n');
    assert.ok(await studio.control('button', 'Undo').isEnabled());
    await open_rack(studio);
    for (const dog of ['Bosun', 'Hawser', 'Käpt’n Ölzeug']) assert.ok(await studio.has('button', card(dog)), dog);
    await studio.press('button', card('Hawser'));
    await titled(studio, 'Hawser');
    await until(async () => !await studio.control('button', 'Undo').isEnabled());
    await open_rack(studio);
    await studio.press('button', card('Käpt’n Ölzeug'));
    await titled(studio, 'Käpt’n');
    await until(() => studio.control('button', 'Undo').isEnabled());
    await studio.press('button', 'Undo');
    await until(() => studio.has('button', 'Show centimetres'));
  },

  'tickets are found by a part of a name, and sorted by change or by dog': async (visitor) => {
    const studio = await visitor.studio();
    await three_dogs(studio);
    await open_rack(studio);
    assert.deepEqual(await cards_in_order(studio), ['Käpt’n Ölzeug', 'Hawser', 'Bosun']);
    await studio.press('radio', 'dog’s name');
    await until(async () => assert.deepEqual(await cards_in_order(studio), ['Bosun', 'Hawser', 'Käpt’n Ölzeug']));
    await studio.control('textbox', 'Find').fill('olz');
    await until(async () => assert.deepEqual(await cards_in_order(studio), ['Käpt’n Ölzeug']));
    await studio.control('textbox', 'Find').fill('GANG hawser');
    await until(async () => assert.deepEqual(await cards_in_order(studio), ['Hawser']));
    await studio.control('textbox', 'Find').fill('nobody');
    await studio.sees('No ticket here has “nobody”');
  },

  'a card tells how its ticket stands': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(loose_neck());
    await studio.open_ticket(ticket({ dog: 'Pennant', measured: '2025-01' }));
    await studio.open_ticket(ticket({ dog: 'Fender', readings: { neck: [] } }));
    await open_rack(studio);
    await until(async () => assert.match(await studio.said('button', card('Bosun')), /2 measures are estimated/));
    await until(async () => assert.match(await studio.said('button', card('Gale')), /to check/));
    assert.match(await studio.said('button', card('Pennant')), /A year old: measure again/);
    assert.match(await studio.said('button', card('Fender')), /Measured: 4 of 5.*It is open now/);
  },

  'a copy keeps the choices and asks for every reading again, and a fresh one takes the place of the old': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(ticket({ dog: 'Hawser', choices: { 'hem-depth': 12 }, readings: { chest: ['27 in', '27 1/4 in'] } }));
    await open_rack(studio);
    await studio.press('button', /^Copy: Hawser/);
    await studio.sees('take each one again');
    assert.match(await studio.said('button', 'Chest girth'), /from an earlier coat/);
    await studio.take('Chest girth', '28');
    await studio.press('button', 'All measures');
    await until(async () => assert.match(await studio.said('button', 'Chest girth'), /^28 in$/));
    const copy = await studio.saved_ticket();
    assert.equal(copy.choices['hem-depth'], 12);
    assert.deepEqual(copy.readings.chest, ['28 in']);
    assert.ok(!copy.carried.includes('chest') && copy.carried.includes('back'), copy.carried);
    assert.match(copy.measured, /^20\d\d-\d\d$/);
    await open_rack(studio);
    assert.equal(await studio.all('button', /^Open Hawser/).count(), 2);
  },

  'what is deleted can be put back at once and after the page was left, and goes for good only when asked twice': async (visitor) => {
    const studio = await visitor.studio();
    await three_dogs(studio);
    await open_rack(studio);
    await studio.press('button', /^Delete: Hawser/);
    await studio.sees(/^Deleted: Hawser/);
    assert.ok(!await studio.has('button', card('Hawser')));
    await studio.press('button', 'Put back');
    await until(() => studio.has('button', card('Hawser')));
    await studio.press('button', /^Delete: Hawser/);
    await until(async () => !await studio.has('button', card('Hawser')));
    await kept(studio);
    await studio.page.reload();
    await studio.ready();
    await open_rack(studio);
    await studio.press('radio', /^deleted 1/);
    await until(() => studio.has('button', /^Put back: Hawser/));
    await studio.press('button', /^Put back: Hawser/);
    await studio.press('radio', /^rack 3/);
    await until(() => studio.has('button', card('Hawser')));
    await studio.press('button', /^Delete: Hawser/);
    await studio.press('radio', /^deleted 1/);
    await studio.press('button', /^Delete for good: Hawser/);
    await until(() => studio.has('button', /^Yes, for good: Hawser/));
    await studio.press('button', /^Yes, for good: Hawser/);
    await studio.sees('Nothing was deleted');
  },

  'a backup holds every ticket and comes back in another browser, where it replaces nothing': async (visitor) => {
    const studio = await visitor.studio();
    await three_dogs(studio);
    await open_rack(studio);
    await studio.press('button', /^Archive: Hawser/);
    await until(() => studio.has('radio', /^archive 1/));
    const download = studio.page.waitForEvent('download');
    await studio.press('button', 'Save a backup');
    const file = await download;
    assert.match(file.suggestedFilename(), /^coatwright-rack-\d{4}-\d\d-\d\d\.json$/);
    const path = await file.path();
    await studio.sees(/^Last backup: /);

    const other = await visitor.studio(devices.laptop);
    await other.station('Measure');
    await other.control('textbox', 'Dog’s name').fill('Windlass');
    await titled(other, 'Windlass');
    await open_rack(other);
    // The example of the one browser is work in the other, and its untouched like from the backup does not hang beside it.
    for (const sentence of [/^From the backup came back: 2\. Hung here already: 0\. The example in it was left out/, /^Nothing has changed\. Hung here already: 2\. The example/]) {
      const chooser = other.page.waitForEvent('filechooser');
      await other.press('button', 'Open a file');
      await (await chooser).setFiles(path);
      await other.sees(sentence);
    }
    for (const dog of ['Windlass', 'Käpt’n Ölzeug']) assert.ok(await other.has('button', card(dog)), dog);
    assert.ok(!await other.has('button', card('Bosun')));
    await other.press('radio', /^archive 1/);
    await until(() => other.has('button', card('Hawser')));
  },

  'a hostile backup is refused in a sentence, and names with markup are text': async (visitor) => {
    const studio = await visitor.studio();
    studio.page.on('dialog', (dialog) => { visitor.faults.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
    const one = (id, dog) => ({ 'coatwright-card': 1, id, place: 'rack', changed: 1764086400123, ticket: ticket({ dog }) });
    const files = [
      [{ 'coatwright-rack': 99, shelves: 1 }, /The backup has version 99/],
      [{ 'coatwright-rack': 1, saved: 0, tickets: [one('../../x', 'Bosun')] }, /^Nothing has changed\. .*Could not be read: 1\./],
      [{ 'coatwright-rack': 1, saved: 0, tickets: [one('aaaaaaaa', kMarkup), one('bbbbbbbb', 'x'.repeat(400))] }, /^From the backup came back: 1\..*Could not be read: 1\./],
    ];
    await open_rack(studio);
    for (const [content, sentence] of files) {
      const chooser = studio.page.waitForEvent('filechooser');
      await studio.press('button', 'Open a file');
      await (await chooser).setFiles({ name: 'rack.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(content)) });
      await studio.sees(sentence);
    }
    await until(async () => (await studio.page.getByRole('button', { name: `Open ${kMarkup}, ${demo.name}` }).count()) === 1);
    assert.equal(await studio.page.evaluate(() => document.querySelectorAll('img').length), 0);
  },

  'a file that is dropped on the page is opened': async (visitor) => {
    const studio = await visitor.studio();
    await studio.page.evaluate((text) => {
      const data = new DataTransfer();
      data.items.add(new File([text], 'ticket.json', { type: 'application/json' }));
      document.getElementById('canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    }, JSON.stringify(giant()));
    await studio.sees(/^Opened: Windlass/);
    await titled(studio, 'Windlass');
  },

  'the rack is drawn out from the left edge by a finger and left by Escape': async (visitor) => {
    const studio = await visitor.studio();
    const { Fingers } = await import('./studio.mjs');
    const fingers = await Fingers.on(studio.page);
    await fingers.put({ x: 4, y: 400 });
    await fingers.move([{ x: 130, y: 404 }]);
    await fingers.lift();
    await until(() => studio.has('heading', 'The rack'));
    await studio.page.keyboard.press('Escape');
    await until(async () => !await studio.has('heading', 'The rack'));
    assert.ok(await studio.has('button', 'Undo'));
  },

  'with the keyboard alone a ticket is made, found and opened': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.control('button', /^Ticket: /).focus();
    await studio.page.keyboard.press('Enter');
    await until(() => studio.has('heading', 'The rack'));
    await studio.control('button', 'New ticket').focus();
    await studio.page.keyboard.press('Enter');
    await titled(studio, 'A dog without a name');
    await studio.control('button', /^Ticket: /).focus();
    await studio.page.keyboard.press('Enter');
    await studio.control('textbox', 'Find').focus();
    await studio.page.keyboard.type('bos');
    await until(async () => assert.deepEqual(await cards_in_order(studio), ['Bosun']));
    await studio.control('button', card('Bosun')).focus();
    await studio.page.keyboard.press('Enter');
    await titled(studio, 'Bosun');
  },

  'the rack opens on every device, and each card can be reached': async (visitor) => {
    for (const [name, device] of Object.entries(devices)) {
      const studio = await visitor.studio(device);
      await three_dogs(studio);
      if (device.hasTouch) await studio.tap('button', /^Ticket: /);
      else await studio.click('button', /^Ticket: /);
      await until(() => studio.has('heading', 'The rack'));
      await studio.control('textbox', 'Find').fill('haw');
      await until(async () => assert.deepEqual(await cards_in_order(studio), ['Hawser']));
      await studio.rest();
      const { x, y } = await studio.middle('button', card('Hawser'));
      if (device.hasTouch) await studio.page.touchscreen.tap(x, y);
      else await studio.page.mouse.click(x, y);
      await until(() => studio.has('button', /^Ticket: Hawser/)).catch((error) => { throw new Error(`${name}: ${error.message}`); });
    }
  },
};
