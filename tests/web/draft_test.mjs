// The draft under the maker's hands: sliders and handles move the outline itself.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { Fingers, until } from './studio.mjs';

// The points of an edge's net line in a saved pattern, mm.
function edge(svg, id) {
  const path = svg.match(new RegExp(`<path d="([^"]*)" data-edge="${id}"`));
  assert.ok(path, `no edge ${id} in the pattern`);
  return [...path[1].matchAll(/(-?[\d.]+)[ ,](-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
}
async function hem_span(studio) {  // from the fold down to the lowest point of the hem, mm
  const svg = (await studio.save('Pattern, SVG')).bytes.toString();
  const top = Math.min(...edge(svg, 'body.fold').map((p) => p.y));
  return Math.max(...edge(svg, 'body.hem').map((p) => p.y)) - top;
}
async function drop_words(studio) {
  return (await studio.statuses()).find((text) => text.startsWith('Drop at the girth line'));
}
const kHandle = 'Hem depth, handle on the board';

async function drag_moves_the_hem(studio, drag) {
  const before = await hem_span(studio);
  await studio.station('Draft');
  await studio.press('button', 'Show centimetres');
  await until(async () => / cm$/.test(await drop_words(studio)));
  const words = await drop_words(studio);
  const from = await studio.middle('slider', kHandle);
  await drag(from, { x: from.x, y: from.y + 30 });
  await until(async () => await drop_words(studio) !== words);
  await studio.rest();
  const to = await studio.middle('slider', kHandle);
  const value = Number.parseFloat(await studio.said('slider', 'Hem depth'));
  assert.ok(value > 0.5, `hem depth ${value} cm`);
  const after = await hem_span(studio);
  assert.ok(Math.abs(after - before - 10 * value) < 1.5, `hem depth ${value} cm moved the hem ${after - before} mm`);
  return { from, to };
}

export default {
  'a slider moves the outline by what it says': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const before = await hem_span(studio);
    await studio.station('Draft');
    await studio.press('button', 'Show centimetres');
    const now = Number(await studio.control('slider', 'Hem depth').inputValue());
    await studio.set('slider', 'Hem depth', now + 20);
    await until(async () => Number(await studio.control('slider', 'Hem depth').inputValue()) === now + 20);
    const after = await hem_span(studio);
    assert.ok(Math.abs(after - before - 20) < 1, `20 mm on the slider, ${after - before} mm on the hem`);
  },

  'another style keeps every reading and every choice, and the coat comes back as it was': async (visitor) => {
    const studio = await visitor.studio();
    await studio.station('Draft');
    await studio.set('slider', 'Hem depth', 12);
    await studio.press('button', /^Collar: none/);
    await studio.press('radio', 'stand');
    await until(() => studio.has('slider', 'Height of the stand'));
    const wrap = await studio.saved_ticket();
    const pieces = async () => [...(await studio.save('Pattern, SVG')).bytes.toString().matchAll(/data-edge="([a-z]+)\.[a-z]+"/g)].map((m) => m[1]);
    const first = new Set(await pieces());
    for (const [name, id, piece] of [['Strap coat', 'strap', 'strap'], ['Underpanel coat', 'underpanel', 'panel']]) {
      await studio.station('Draft');
      await studio.press('radio', name);
      await until(async () => await studio.control('radio', name).getAttribute('aria-checked') === 'true');
      await studio.rest();
      assert.deepEqual(await studio.saved_ticket(), { ...wrap, style: id });
      const now = new Set(await pieces());
      assert.ok(now.has(piece) && now.has('collar') && !now.has('band'), `${id}: ${[...now]}`);
    }
    await studio.station('Draft');
    await studio.press('radio', 'Wrap coat');
    await studio.rest();
    assert.deepEqual(await studio.saved_ticket(), wrap);
    assert.deepEqual(new Set(await pieces()), first);
  },

  'an extra is unfolded and folded by a key that says so': async (visitor) => {
    const studio = await visitor.studio(devices.phone);
    await studio.station('Draft');
    const fold = studio.control('button', /^Pocket: none/);
    assert.equal(await fold.getAttribute('aria-expanded'), 'false');
    await fold.focus();
    await studio.rest();
    const { x, y } = await studio.middle('button', /^Pocket: none/);
    await studio.page.touchscreen.tap(x, y);
    await until(() => studio.has('radio', 'patch'));
    assert.equal(await fold.getAttribute('aria-expanded'), 'true');
    await fold.press('Enter');
    await until(async () => !await studio.has('radio', 'patch'));
  },

  'a slider is dragged by a finger along its track': async (visitor) => {
    const studio = await visitor.studio();
    await studio.station('Draft');
    const box = await studio.box('slider', 'Chest ease');
    const before = Number(await studio.control('slider', 'Chest ease').inputValue());
    const fingers = await Fingers.on(studio.page);
    const y = box.y + box.height / 2;
    await fingers.put({ x: box.x + box.width * 0.3, y });
    await fingers.move([{ x: box.x + box.width * 0.8, y }]);
    await fingers.lift();
    await until(async () => Number(await studio.control('slider', 'Chest ease').inputValue()) > before);
  },

  'a mouse drags a handle and the outline follows': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const { from, to } = await drag_moves_the_hem(studio, async (a, b) => {
      await studio.page.mouse.move(a.x, a.y);
      await studio.page.mouse.down();
      await studio.page.mouse.move(b.x, b.y, { steps: 10 });
      await until(async () => Math.abs((await studio.middle('slider', kHandle)).y - b.y) < 4);  // under the pointer
      await studio.page.mouse.up();
    });
    assert.notEqual(from.y, to.y);
  },

  'a finger drags a handle and the outline follows': async (visitor) => {
    const studio = await visitor.studio();
    const fingers = await Fingers.on(studio.page);
    await drag_moves_the_hem(studio, async (a, b) => {
      await fingers.put(a);
      await fingers.move([b], 10);
      await until(async () => Math.abs((await studio.middle('slider', kHandle)).y - b.y) < 4);
      await fingers.lift();
    });
  },

  'while a handle is dragged the mirror follows ten times a second at the most, and only what has changed is touched': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.station('Draft');
    await studio.rest();
    const from = await studio.middle('slider', kHandle);
    await studio.page.mouse.move(from.x, from.y);
    await studio.page.mouse.down();
    await studio.page.evaluate(() => {
      const { update } = mirror;  // web/mirror.js
      window.seen = { updates: [], touched: new Set(), frames: window.meter.frames };
      mirror.update = (given) => { window.seen.updates.push(performance.now()); update(given); };
      new MutationObserver((all) => all.forEach(({ target }) => window.seen.touched.add((target.dataset ?? target.parentNode.dataset).id)))
        .observe(document.getElementById('mirror'), { subtree: true, attributes: true, childList: true, characterData: true });
    });
    for (let i = 1; i <= 60; i += 1) await studio.page.mouse.move(from.x, from.y + 14 * Math.sin(i / 8));
    const { updates, touched, frames } = await studio.page.evaluate(() => ({ ...window.seen, touched: [...window.seen.touched], frames: window.meter.frames - window.seen.frames }));
    await studio.page.mouse.up();
    assert.ok(frames > 10, `${frames} frames`);
    const gaps = updates.slice(1).map((at, i) => at - updates[i]);
    // A frame that is late itself may be followed sooner by the next; over the whole drag there are no more.
    const most = (updates.at(-1) - updates[0]) / 100 + 1;
    assert.ok(gaps.length > 1 && gaps.length <= most && Math.min(...gaps) > 50, `updates after ${gaps.map(Math.round)} ms`);
    assert.ok(touched.includes('handle.hem-depth') && touched.includes('choice.hem-depth'), `${touched}`);
    for (const still of ['station.draft', 'redo', 'style.0', 'choice.chest-ease', 'handle.neck-fullness']) assert.ok(!touched.includes(still), still);
  },

  'every handle moves its own choice when it is dragged': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.station('Draft');
    await studio.control('slider', kHandle).waitFor({ state: 'attached' });
    const names = await studio.page.getByRole('slider', { name: /, handle on the board$/ })
      .evaluateAll((elements) => elements.map((element) => element.getAttribute('aria-label')));
    assert.ok(names.length >= 5, names.join());
    for (const name of names) {
      const value = () => studio.control('slider', name).inputValue();
      const before = await value();
      // One of two opposite directions always leads away from a limit.
      for (const step of [26, -26]) {
        if (await value() !== before) break;
        const from = await studio.middle('slider', name);
        await studio.page.mouse.move(from.x, from.y);
        await studio.page.mouse.down();
        await studio.page.mouse.move(from.x + step, from.y + step, { steps: 6 });
        await studio.page.mouse.up();
        await studio.rest();
      }
      assert.notEqual(await value(), before, name);
      await studio.press('button', 'Undo');
      await until(async () => await value() === before);
    }
  },

  'a touched line tells its name, its length and its rule': async (visitor) => {
    const studio = await visitor.studio();
    await studio.station('Draft');
    await studio.control('slider', kHandle).waitFor({ state: 'attached' });
    const { x, y } = await studio.place_on_hem();
    await studio.page.touchscreen.tap(x, y);
    await studio.sees(/^Hem +[\d ⅛¼⅜½⅝¾⅞/⁄]+ in.*: .*Cut .* outside this line/);
  },

  'a choice is set back to its suggested value': async (visitor) => {
    const studio = await visitor.studio();
    await studio.station('Draft');
    const value = () => studio.control('slider', 'Front overlap').inputValue();
    const sized = await value();
    await studio.control('slider', 'Front overlap').press('ArrowRight');
    await until(async () => await value() !== sized);
    await studio.press('button', 'Front overlap: back to the suggested value');
    await until(async () => await value() === sized);
    assert.deepEqual((await studio.saved_ticket()).choices, {});
  },
};
