// The Lay station in a browser: laid, looked at, changed, printed.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';

import { devices } from './studio_page.mjs';
import { Fingers, until } from './studio.mjs';
import { giant, ticket } from './tickets.mjs';

const many = () => ticket({ choices: { collar: 'turned', pocket: 'patch' }, cloths: [{ use: 'shell', name: 'Rain stripe', width: 700 }] });

async function laid(studio) {
  await studio.station('Lay');
  await studio.press('radio', 'Lay');
  await until(async () => (await studio.statuses()).includes('Laid'), 60000);
}

// What the page hands to the printer is kept as text instead.
const keep_printed = () => {
  window.print = () => { window.printed = document.getElementById('print').textContent.replace(/\u00a0/g, ' '); };
};
async function printed(studio, button) {
  await until(() => studio.control('button', button).isEnabled());
  await studio.page.evaluate(() => { delete window.printed; });
  await studio.press('button', button);
  await studio.page.waitForFunction(() => window.printed !== undefined);
  return studio.page.evaluate(() => window.printed);
}
async function said(studio, pattern) {
  return until(async () => (await studio.statuses()).find((text) => pattern.test(text)) ?? false);
}
const sum_in = (text) => Number(/: [^\d]*([\d.]+)$/.exec(text)[1]);
// One after the other, each drawn before the next: a cloth is kept as a whole, with what is typed last.
async function fill(studio, fields) {
  for (const [name, value] of fields) {
    await studio.set('textbox', name, value);
    await studio.page.evaluate(async () => { for (let n = 0; n < 3; n += 1) await new Promise(requestAnimationFrame); });
  }
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

  'the diagram and the list are saved as pages with their text, and the list alone on fewer': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(many());
    await studio.station('Lay');
    await studio.press('radio', 'To buy');
    const pages = {};
    for (const [key, name, held] of [['Diagram and list, PDF', 'lay', /What to buy and how to lay it[^]*1 Body/], ['List alone, PDF', 'shopping', /What to buy[^]*Rain stripe/]]) {
      await until(() => studio.control('button', key).isEnabled());
      const download = studio.page.waitForEvent('download');
      await studio.press('button', key);
      const file = await download;
      assert.match(file.suggestedFilename(), new RegExp(`-${name}\\.pdf$`));
      const pdf = await file.path();
      assert.match(execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }), held);
      pages[name] = Number(/^Pages: +(\d+)$/m.exec(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' }))[1]);
    }
    assert.ok(pages.shopping < pages.lay, JSON.stringify(pages));
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

  'a refusal of the lay is said once, on the board, also on a phone': async (visitor) => {
    const studio = await visitor.studio(devices.phone);
    await studio.open_ticket(ticket({ cloths: [{ use: 'shell', width: 300 }] }));
    await studio.station('Lay');
    await studio.sees(/needs .* across the shell/);
    const told = (await studio.statuses()).filter((text) => text.includes('across the shell'));
    assert.equal(told.length, 1, told.join('\n'));
  },

  'a striped cloth from the shelf is laid to match, and sheet and paper say where its stripes lie': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, keep_printed);
    await laid(studio);
    await studio.press('radio', 'Cloth');
    await fill(studio, [['Name', 'Deckchair stripe'], ['Repeat along the length', '6 cm'], ['Repeat across the width', '4.5 cm']]);
    await fill(studio, [['Edge to first stripe', '3 cm']]);
    await studio.press('button', 'Put on the shelf');
    await until(() => studio.has('radio', /^Deckchair stripe/));
    await studio.open_ticket(ticket({ dog: 'Gale', unit: 'cm', choices: { collar: 'turned' } }));
    await laid(studio);
    assert.ok(!(await studio.statuses()).some((text) => text.includes('stripe')), 'the usual cloth is plain');
    await studio.press('radio', 'Cloth');
    await studio.press('radio', /^Deckchair stripe/);
    await until(async () => /Deckchair/.test(await studio.control('textbox', 'Name').inputValue()));
    await studio.press('radio', 'Lay');
    if (await studio.has('button', 'Stop')) await studio.press('button', 'Stop');
    const round = await said(studio, /^Stripes run round the dog: .* to a stripe’s middle, and 6 cm from each to the next\.$/);
    const along = await said(studio, /^Stripes run along the dog: .* it is 3 cm to a stripe’s middle, and 4\.5 cm from each to the next\.$/);
    const from = /From the beginning of the lay it is ([\d.]+) cm/.exec(round)[1];
    assert.ok(Number(from) < 6, 'the first stripe lies within the first repeat');
    const page = await printed(studio, 'Print diagram and list');
    for (const how of [round, along]) assert.ok(page.includes(how), `${how}\n${page}`);
    assert.match(page, /One repeat of 6 cm is added/);
  },

  'a remnant is enough or too short, and says by how much': async (visitor) => {
    const studio = await visitor.studio(devices.phone);
    await laid(studio);
    for (const [length, answer] of [['90 in', /^The remnant of 90 in is enough; [\d ½¼¾⅛⅜⅝⅞]+ in of it is left over\./], ['10 in', /^The remnant of 10 in is [\d ½¼¾⅛⅜⅝⅞]+ in too short\./]]) {
      await studio.press('radio', 'Cloth');
      await studio.set('textbox', 'Length, if a remnant', length);
      await studio.press('radio', 'Lay');
      await studio.sees(answer);
      await studio.press('radio', 'To buy');
      await studio.sees(answer.source.includes('enough') ? /^Shell cloth.*from the shelf/ : /^Shell cloth.*too short/);
    }
  },

  'a ware is priced by its width: what it costs follows its price, and another width has none yet': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const strap = (width, more = {}) => ticket({ dog: `Gale ${width}`, style: 'strap', choices: { 'strap-width': width }, ...more });
    await studio.open_ticket(strap('mm25'));
    await laid(studio);
    await studio.press('radio', 'Quote');
    await studio.sees(/^No price yet: .*Webbing, 1 in wide/);
    await studio.set('textbox', /^Price: Webbing, 1 in wide/, '4');
    const once = sum_in(await said(studio, /^Webbing, 1 in wide.*\d$/));
    assert.ok(once > 0);
    await studio.set('textbox', /^Price: Webbing, 1 in wide/, '8');
    await until(async () => Math.abs(sum_in(await said(studio, /^Webbing, 1 in wide.*\d$/)) - 2 * once) < 0.011);  // both are rounded
    const { quote } = await studio.saved_ticket();
    assert.deepEqual(quote.wares.map(({ kind, width, price }) => [kind, width, price]), [['webbing', 25, 8]]);
    await studio.open_ticket(strap('mm50', { quote }));
    await laid(studio);
    await studio.press('radio', 'Quote');
    await studio.sees(/^Webbing, 2 in wide.*: –$/);
    await studio.sees(/^No price yet: .*Webbing, 2 in wide/);
  },

  'a quote is printed once every price is typed, with the sum that stands on the screen and the margin in it': async (visitor) => {
    const studio = await visitor.studio(devices.laptop, keep_printed);
    await laid(studio);
    await studio.press('radio', 'Quote');
    assert.ok(!await studio.control('button', 'Print the quote').isEnabled());
    await studio.sees(/^Prices missing/);
    await fill(studio, [['Currency', '€'], ['An hour’s work', '30'], ['Margin, %', '20'], [/^Minutes: Cut/, '60'], ['Price: thread, in all', '2']]);
    const prices = studio.page.getByRole('textbox', { name: /^(Pair|Price): (?!thread)/ });
    const names = await prices.evaluateAll((fields) => fields.map((field) => field.getAttribute('aria-label')));
    assert.ok(names.length >= 2, names.join());
    await fill(studio, names.map((name) => [name, '3']));
    await studio.press('radio', 'Cloth');
    for (const cloth of ['Shell', 'Lining']) {
      await studio.press('radio', cloth);
      await fill(studio, [[/^Price/, '12']]);
    }
    await studio.press('radio', 'Quote');
    const page = await printed(studio, 'Print the quote');
    const [materials, work, margin, total] = await Promise.all(['Materials', 'Work', 'Margin', 'Total'].map(async (name) => sum_in(await said(studio, new RegExp(`^${name}: €`)))));
    assert.equal(work, 30);
    assert.ok(Math.abs(margin - 0.2 * (materials + work)) < 0.011, `${margin} of ${materials} and ${work}`);
    assert.ok(Math.abs(total - materials - work - margin) < 0.011, `${total}`);
    assert.ok(page.includes(`€ ${total.toFixed(2)}`), page);
    assert.match(page, /Bosun/);
    assert.ok(!/margin/i.test(page), 'the maker’s margin is not the client’s business');
  },

  'a coat too wide for the cloth is named by its dog, on paper too, and the others are laid': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, keep_printed);
    await studio.open_ticket(giant());
    await studio.open_ticket(ticket({ dog: 'Gale', cloths: [{ use: 'shell', width: 700 }] }));
    await laid(studio);
    await studio.press('button', 'Lay other coats with it');
    await studio.press('button', /^Lay with it: Windlass/);
    await studio.sees(/^Windlass.* is not in this lay\. Body needs .* across the shell/);
    const page = await printed(studio, 'Print diagram and list');
    assert.match(page, /Not in this lay\s*Windlass, .*: Body needs .* across the shell/);
    await studio.press('radio', 'To buy');
    await studio.sees(/^Not in this lay.*Windlass/);
  },

  'a search goes on in many small slices, and the page answers between them': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(many());
    await laid(studio);
    await studio.page.evaluate(() => { window.meter.timing = true; window.meter.callbacks.length = 0; });
    await studio.press('button', 'Improve');
    await studio.sees(/^Looking for a shorter lay/);
    await studio.press('radio', 'Cloth');
    await until(() => studio.has('textbox', 'Width'));
    await studio.press('radio', 'Lay');
    await until(async () => (await studio.statuses()).includes('Laid'), 120000);
    const times = await studio.page.evaluate(() => { window.meter.timing = false; return window.meter.callbacks; });
    const whole = times.reduce((sum, ms) => sum + ms, 0);
    assert.ok(times.length >= 6, `${times.length} frames`);
    assert.ok(Math.max(...times) < whole / 3, `one frame took ${Math.max(...times)} of ${whole} ms`);
  },
};
