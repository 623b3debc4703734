// A rack of two or three busy years: opened, searched, scrolled, saved and put back, with only what is in sight on the page.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { backup_file, busy_rack, ticket } from './tickets.mjs';

const kTickets = 5000;
const kPatience = 100000;  // ms: the machine may be shared

const open_rack = async (studio) => {
  await studio.press('button', /^Ticket: /);
  await until(() => studio.has('heading', 'The rack'));
};
const sees = (studio, words) => until(async () => {
  assert.ok((await studio.statuses()).some((text) => words.test(text)), `${words}`);
}, kPatience);
const mirrored = (studio) => studio.page.evaluate(() => document.querySelectorAll('#mirror *').length);
const kept = (studio) => studio.page.evaluate(() => window.coatwright.stored());
const places = (studio) => studio.page.getByRole('listitem').evaluateAll((all) => all.map(
  (e) => [Number(e.getAttribute('aria-posinset')), Number(e.getAttribute('aria-setsize'))]));

async function timed(report, what, deed) {
  const from = performance.now();
  await deed();
  report.push(`${what} ${Math.round(performance.now() - from)} ms`);
}

export default {
  'five thousand tickets are put back, found, scrolled through and saved, and a second time changes nothing': async (visitor) => {
    const rack = busy_rack(kTickets), file = backup_file(rack), report = [`${(file.length / 1e6).toFixed(1)} MB`];
    const studio = await visitor.studio(devices.tablet);
    studio.page.setDefaultTimeout(kPatience);
    await open_rack(studio);
    const hung = rack.tickets.filter((one) => one.place === 'rack').length;
    await timed(report, 'put back', async () => {
      await studio.put_back(file);
      await sees(studio, new RegExp(`came back: ${kTickets}`));
    });
    await timed(report, 'kept', () => kept(studio));
    assert.ok(await studio.has('radio', `rack ${hung + 1}`), 'with the example');
    assert.ok(await mirrored(studio) < 250, `${await mirrored(studio)} elements`);

    await timed(report, 'again', async () => {
      await studio.put_back(file);
      await sees(studio, new RegExp(`Nothing has changed\\. Hung here already: ${kTickets}\\.`));
    });

    await timed(report, 'opened anew', async () => {
      await studio.page.reload();
      await studio.ready();
    });
    await open_rack(studio);
    await until(() => studio.has('radio', `rack ${hung + 1}`), kPatience);
    const shown = await places(studio);
    assert.deepEqual(shown.map(([place]) => place), shown.map((_, i) => i + 1));
    assert.ok(shown.every(([, all]) => all === hung + 1) && shown.length > 2 && shown.length < 60, `${shown.length} cards`);
    assert.ok(await mirrored(studio) < 250, `${await mirrored(studio)} elements`);

    // Found, wherever they hang: the oldest, the newest, and some between.
    for (const one of [1, 2, 2500, 3333, 4999].map((i) => rack.tickets[i])) {
      await studio.press('radio', new RegExp(`^${one.place} `));
      await timed(report, `found ${one.ticket.dog}`, async () => {
        await studio.control('textbox', 'Find').fill(one.ticket.dog.toUpperCase());
        await until(() => studio.has('button', new RegExp(`^Open ${one.ticket.dog}, `)), kPatience);
      });
      assert.deepEqual(await places(studio), [[1, 1]]);
    }
    await studio.press('radio', /^rack /);
    await studio.control('textbox', 'Find').fill('');

    // To the far end and a page back, by keys, and on by the way that a screen reader has.
    await studio.page.evaluate(() => document.activeElement.blur());
    await until(async () => (await places(studio)).length > 2);
    await studio.page.keyboard.press('End');
    await until(async () => assert.equal((await places(studio)).at(-1)[0], hung + 1));
    await studio.page.keyboard.press('PageUp');
    await until(() => studio.has('button', 'More tickets'));
    await studio.page.keyboard.press('Home');
    await until(async () => assert.equal((await places(studio))[0][0], 1));
    const last = (await places(studio)).at(-1)[0];
    await studio.press('button', 'More tickets');
    await until(async () => assert.ok((await places(studio)).at(-1)[0] > last));

    const download = studio.page.waitForEvent('download', { timeout: kPatience });
    await timed(report, 'saved', async () => {
      await studio.press('button', 'Save a backup');
      const saved = JSON.parse(readFileSync(await (await download).path(), 'utf8'));
      const ids = new Set(saved.tickets.map((one) => one.id));
      assert.equal(saved.tickets.length, kTickets + 1);
      assert.ok(rack.tickets.every((one) => ids.has(one.id)));
    });
    console.log(`      ${report.join(', ')}`);
  },

  'what a backup has otherwise is laid beside what hangs here, and only what is chosen is done': async (visitor) => {
    for (const [name, device] of Object.entries(devices)) {
      const studio = await visitor.studio(device);
      await studio.open_ticket(ticket({ dog: 'Hawser' }));
      await open_rack(studio);
      const download = studio.page.waitForEvent('download');
      await studio.press('button', 'Save a backup');
      const file = JSON.parse(readFileSync(await (await download).path(), 'utf8'));
      const hawser = file.tickets.find((one) => one.ticket.dog === 'Hawser');
      hawser.ticket.dog = 'Hawser & Son';
      hawser.ticket.readings.neck = ['17 in'];
      const changed = backup_file(file);
      await studio.put_back(changed);
      await until(() => studio.has('heading', 'Put back what differs'));
      await studio.sees(/^Dog: here Hawser, in the backup Hawser & Son/);
      await studio.sees(/^Neck girth: here .*in the backup 17 in/);
      await studio.press('button', 'Leave all as it is');
      await studio.sees(/^Nothing has changed\. .*although the backup has them otherwise: 1\./);
      assert.ok(await studio.has('button', /^Ticket: Hawser,/), name);
      await studio.put_back(changed);
      await studio.press('radio', 'Keep both');
      await studio.press('button', 'Do as chosen');
      await until(() => studio.has('radio', 'rack 3'));
      await studio.put_back(changed);  // both hang here now
      await studio.sees(/^Nothing has changed/);
      assert.ok(await studio.has('radio', 'rack 3'), name);
    }
  },

  'a backup that breaks off gives what stands before, and says so': async (visitor) => {
    const studio = await visitor.studio();
    const file = backup_file(busy_rack(40));
    await open_rack(studio);
    await studio.put_back(file.subarray(0, Math.floor(file.length * 0.6)));
    await studio.sees(/came back: 2\d\..*breaks off before its end/);
    await studio.put_back(file);
    await studio.sees(/came back: 1\d\. Hung here already: 2\d/);
  },
};
