// The page that lights the cutting table, as a maker meets it: from the Print station to a square that is measured in the
// picture. The projector is made up (cloth.mjs). What the page draws is read from a screenshot and
// thrown back onto the table by rays, which no homography of the page takes part in.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

import { Cloth, kA2, kWindow, lamp } from './cloth.mjs';
import { shot } from './pixels.mjs';
import { Fingers, Studio, kept_offline, until } from './studio.mjs';
import { serve } from './studio_page.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
// Middles of the pixels of a screenshot that are nearly white.
async function white_pixels(page) {
  const flat = await page.evaluate(async (png) => {
    const { data: rgba, width } = await pixels_of(png);
    const found = [];
    for (let i = 0; i < rgba.length; i += 4) if (Math.min(rgba[i], rgba[i + 1], rgba[i + 2]) > 150) found.push((i / 4) % width, Math.floor(i / 4 / width));
    return found;
  }, await shot(page));
  const points = [];
  for (let i = 0; i < flat.length; i += 2) points.push([flat[i] + 0.5, flat[i + 1] + 0.5]);
  return points;
}
const mean = (list) => list.reduce((sum, value) => sum + value, 0) / list.length;

// What a ruler would show of a square about the rectangle's middle: each side's middle line, from the pixels that fall near it.
async function measured_square(page, light, [wide, high], side) {
  const points = (await white_pixels(page)).map(light.to_table);
  const near = (axis, at, other) => points.filter((p) => Math.abs(p[axis] - at) < 12 && Math.abs(p[1 - axis] - other) < 0.4 * side).map((p) => p[axis]);
  const sides = [[0, wide / 2 - side / 2, high / 2], [0, wide / 2 + side / 2, high / 2], [1, high / 2 - side / 2, wide / 2], [1, high / 2 + side / 2, wide / 2]].map((s) => near(...s));
  for (const pixels of sides) assert.ok(pixels.length > 60, `${pixels.length} pixels of a side`);
  const [left, right, upper, lower] = sides.map(mean);
  return { across: right - left, along: lower - upper, left, upper };
}

export default {
  'pins that are dragged onto the corners of a tilted table draw a square that is true there': async (visitor) => {
    const light = lamp(kA2, 24, -17);
    const cloth = await Cloth.open(visitor);
    await cloth.begin(kA2);
    await cloth.drag_pins(light.corners);
    await cloth.told('on the table');
    await cloth.to_check();
    const side = await cloth.side();
    assert.ok(side > 300 && side < 420, `${side} mm`);
    const found = await cloth.bare(() => measured_square(cloth.page, light, kA2, side));
    for (const edge of ['across', 'along']) assert.ok(Math.abs(found[edge] - side) < 0.5, `${edge}: ${found[edge]} mm instead of ${side}`);
    assert.ok(Math.abs(found.left - (kA2[0] - side) / 2) < 0.5 && Math.abs(found.upper - (kA2[1] - side) / 2) < 0.5);
    await cloth.judge(found.across, found.along, side * Math.SQRT2);
    await cloth.told('True within 1 mm');
  },

  'a rectangle of another size than was said is found by its lengths, corrected, and measured true': async (visitor) => {
    const light = lamp(kA2, -15, 9);
    const cloth = await Cloth.open(visitor);
    await cloth.begin([kA2[0] * 1.02, kA2[1] * 0.985]);  // what was typed
    await cloth.drag_pins(light.corners);                // what lies there
    await cloth.to_check();
    const side = await cloth.side();
    const look = () => cloth.bare(() => measured_square(cloth.page, light, kA2, side));
    const wrong = await look();
    assert.ok(Math.abs(wrong.across / side - 1 / 1.02) < 0.003, `${wrong.across}`);
    await cloth.judge(wrong.across, wrong.along, Math.hypot(wrong.across, wrong.along));
    await cloth.told('the upper edge is 2.0 % too short');
    assert.equal(await cloth.button('Show the coat').isVisible(), false);
    await cloth.press('Correct the picture by these lengths');
    await cloth.drawn();
    const mended = await look();
    for (const edge of ['across', 'along']) assert.ok(Math.abs(mended[edge] - side) < 0.6, `${edge}: ${mended[edge]} mm`);
    await cloth.judge('1 m', mended.along, side * Math.SQRT2);
    await cloth.told('More than 5 % off is no small error');
    assert.equal(await cloth.button('Show the coat').isVisible(), false);
  },

  'corners that make no convex shape or a mirror image are refused, and keys move a pin by half a pixel': async (visitor) => {
    const cloth = await Cloth.open(visitor);
    await cloth.begin(kA2);
    await cloth.drag_pins([[300, 200], [900, 200], [450, 300], [300, 600]]);
    await cloth.told('make no rectangle seen from anywhere');
    assert.equal(await cloth.button('On to the check').isDisabled(), true);
    await cloth.drag_pins([[900, 200], [300, 200], [300, 600], [900, 600]]);
    await cloth.told('its mirror image');
    await cloth.drag_pins([[300, 200], [900, 200], [900, 600], [300, 600]]);
    assert.equal(await cloth.button('On to the check').isDisabled(), false);
    await cloth.pin(3).focus();
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowRight', 'Shift+ArrowDown', 'ArrowUp']) await cloth.page.keyboard.press(key);
    await until(async () => (await cloth.pin(3).getAttribute('aria-label')) === 'Corner 3, below right: 901.5 across, 609.5 down');
    assert.ok(await cloth.page.getByRole('button', { name: 'Corner 1, above left: 300 across, 200 down' }).isVisible());
  },

  'pieces are gone through in cutting order, moved by keys, and the controls leave the picture': async (visitor) => {
    const cloth = await Cloth.open(visitor);
    await cloth.to_show();
    await cloth.told('The whole lay');
    const lines = (await white_pixels(cloth.page)).length;
    await cloth.page.keyboard.press('PageDown');
    await cloth.told(/^1 of \d+: /);
    await cloth.press('Next piece');
    await cloth.told(/^2 of \d+: /);
    await cloth.drawn();
    assert.notEqual((await white_pixels(cloth.page)).length, lines, 'the piece that is cut next is lit');
    await cloth.page.keyboard.press('Shift+ArrowRight');
    await cloth.page.keyboard.press('ArrowUp');
    await cloth.told('Moved to 10 mm across, -1 mm down');
    await cloth.page.mouse.move(5, 5);
    await cloth.page.evaluate(() => document.activeElement.blur());
    await until(() => cloth.page.evaluate(() => getComputedStyle(document.getElementById('panel')).opacity === '0'), 8000);
    await cloth.page.keyboard.press('PageDown');
    await until(() => cloth.page.evaluate(() => getComputedStyle(document.getElementById('panel')).opacity === '1'));
    await cloth.page.getByRole('combobox', { name: 'Cloth' }).selectOption({ label: 'The pattern, piece by piece' });
    await cloth.told(/^1 of \d+: /);
    assert.equal(await cloth.page.getByRole('checkbox').isDisabled(), true);
  },

  'a window of another size asks for the check again, and nothing is shown before': async (visitor) => {
    const cloth = await Cloth.open(visitor);
    await cloth.to_show();
    await cloth.page.setViewportSize({ width: 1240, height: 720 });
    await cloth.told('The window has changed');
    assert.equal(await cloth.at(), 'check');
    assert.equal(await cloth.button('Show the coat').isVisible(), false);
  },

  'a page that is zoomed, and a window that is moved to another place or screen, ask for the check again': async (visitor) => {
    const cloth = await Cloth.open(visitor);
    const { page } = cloth;
    await cloth.to_show();
    const session = await page.context().newCDPSession(page);
    const { width, height } = kWindow.viewport;
    const side = await cloth.side();
    // Zoomed by a quarter: as many pixels, fewer CSS pixels.
    await session.send('Emulation.setDeviceMetricsOverride', { width: width / 1.25, height: height / 1.25, deviceScaleFactor: 1.25, mobile: false });
    await cloth.told('The window has changed');
    assert.equal(await cloth.at(), 'check');
    assert.equal(await cloth.button('Show the coat').isVisible(), false);
    assert.deepEqual(await page.evaluate(() => [document.getElementById('picture').width, document.getElementById('picture').height]), [width, height], 'every pixel is drawn');
    await cloth.judge(side, side, side * Math.SQRT2);
    await cloth.told('True within 1 mm');
    // While it is measured, the window moves on: what was measured is true of nothing.
    await page.evaluate(() => { Object.defineProperty(window, 'screenX', { value: 1920 }); });
    await until(async () => !await cloth.button('Show the coat').isVisible());
    await session.send('Emulation.setDeviceMetricsOverride', { width, height, deviceScaleFactor: 1, mobile: false });
  },

  'a finger drags the pins and nothing else, and a second one on the same pin does not pull at it': async (visitor) => {
    const cloth = await Cloth.open(visitor, { ...kWindow, hasTouch: true });
    await cloth.begin(kA2);
    const { corners } = lamp(kA2, 12, -8);
    const fingers = await Fingers.on(cloth.page);
    const middle = async (n) => {
      const box = await cloth.pin(n).boundingBox();
      return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    };
    for (const [i, [x, y]] of corners.entries()) {
      const from = await middle(i + 1);
      // Held beside its middle, so that the finger does not hide the corner.
      await fingers.put({ x: from.x + 20, y: from.y + 14 });
      await fingers.move([{ x: x + 20, y: y + 14 }]);
      await fingers.lift();
    }
    await cloth.drawn();
    const off = (await cloth.page.evaluate(() => table.pins)).map(([x, y], i) => Math.hypot(x - corners[i][0], y - corners[i][1]));
    assert.ok(Math.max(...off) < 1, `${off}`);
    assert.deepEqual(await cloth.page.evaluate(() => [scrollX, scrollY, visualViewport.scale]), [0, 0, 1]);

    const [at] = corners.map(([x, y]) => ({ x, y }));
    await fingers.put(at, { x: at.x + 25, y: at.y });
    await fingers.move([at, { x: at.x + 30, y: at.y + 30 }]);
    const still = await cloth.page.evaluate(() => table.pins[0]);
    assert.ok(Math.hypot(still[0] - at.x, still[1] - at.y) < 1, `${still}`);
    await fingers.move([{ x: at.x - 12, y: at.y }, { x: at.x + 30, y: at.y + 30 }]);
    await fingers.lift();
    const moved = await cloth.page.evaluate(() => table.pins[0]);
    assert.ok(Math.abs(moved[0] - at.x + 12) < 1 && Math.abs(moved[1] - at.y) < 1, `${moved}`);
  },

  'a set-up is kept by name and measured again before it is used; a torn one is said to be so': async (visitor) => {
    const cloth = await Cloth.open(visitor);
    await cloth.begin(kA2);
    await cloth.drag_pins(lamp(kA2, 12, -8).corners);
    await cloth.to_check();
    const side = await cloth.side();
    await cloth.judge(side, side, side * Math.SQRT2);
    await cloth.press('Keep');
    await cloth.told('Type what you call it');
    await cloth.field('Keep this set-up as').fill('<b>Sewing room</b>');
    await cloth.press('Keep');
    await cloth.told('Kept as “<b>Sewing room</b>”');
    const pins = await cloth.page.evaluate(() => table.pins);
    await cloth.page.evaluate(() => {
      const [key] = Object.keys(localStorage).filter((one) => one.startsWith('coatwright-table:'));
      localStorage.setItem('coatwright-table:torn', localStorage.getItem(key).slice(0, 60));
      localStorage.setItem('coatwright-table:other', JSON.stringify({ ...JSON.parse(localStorage.getItem(key)), pins: [[0, 0], ['x', 1], [2, 2], null] }));
      localStorage.setItem('coatwright-table:newer', JSON.stringify({ ...JSON.parse(localStorage.getItem(key)), form: 2 }));
    });
    await cloth.page.reload();
    await cloth.page.waitForFunction(() => document.documentElement.dataset.ready === 'yes');
    for (const name of ['torn', 'other', 'newer']) {
      assert.ok(await cloth.page.getByText(`“${name}” cannot be read and is not used`).isVisible());
      assert.equal(await cloth.button(`Use: ${name}`).count(), 0);
    }
    await cloth.press('Forget: torn');
    assert.equal(await cloth.page.getByText('“torn” cannot be read').count(), 0);
    await cloth.press('Use: <b>Sewing room</b>');
    await cloth.told('is set up as you kept it. Measure before you trust it');
    assert.deepEqual(await cloth.page.evaluate(() => table.pins), pins);
    assert.equal(await cloth.button('Show the coat').isVisible(), false);
    await cloth.page.evaluate(() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; });
    await cloth.judge(side, side, side * Math.SQRT2);
    await cloth.press('Keep');
    await cloth.told('This browser keeps nothing now');
  },

  'a second window of the browser is a remote': async (visitor) => {
    const cloth = await Cloth.open(visitor);
    await cloth.to_show();
    const opening = cloth.page.waitForEvent('popup');
    await cloth.press('Remote');
    const page = await opening;
    await page.setViewportSize({ width: 390, height: 844 });
    const remote = new Cloth(page);
    await remote.told('The whole lay');
    await remote.press('Next piece');
    await remote.told(/^1 of \d+: /);
    await cloth.told(/^1 of \d+: /);
    await page.getByRole('combobox', { name: 'Each press moves it by' }).selectOption('10 mm');
    await remote.press('To the left');
    await cloth.told('Moved to -10 mm across, 0 mm down');
    await remote.press('Dark');
    await until(async () => await remote.button('Dark').getAttribute('aria-pressed') === 'true');
    await cloth.drawn();
    assert.equal(await cloth.bare(async () => (await white_pixels(cloth.page)).length), 0);
    // What comes from elsewhere is not obeyed.
    await page.evaluate(() => { for (const data of [null, 7, { to: 'x', do: 'next' }, { to: location.hash.slice(8), do: 'constructor' }, { to: location.hash.slice(8), do: 'left', by: 1e9 }]) channel.postMessage(data); });
    await cloth.told('Moved to -11 mm across, 0 mm down');
    await cloth.page.close();
    await remote.press('Next piece');
    await remote.told('No page that shows a coat on the cloth is open');
    assert.equal(await remote.button('Next piece').isDisabled(), true);
  },

  'a coat that was changed in the studio meanwhile is said, one whose step is ticked is not': async (visitor) => {
    const cloth = await Cloth.open(visitor);
    const changed = cloth.page.getByText('This coat was changed in the studio');
    await cloth.page.evaluate(() => {
      window.heard = 0;
      new BroadcastChannel(STUDIO_CHANNEL).onmessage = () => { window.heard += 1; };
    });
    await cloth.studio.page.evaluate(() => coatwright.kept());
    await cloth.studio.station('Make');
    await cloth.studio.press('button', /^Cut/);
    await cloth.studio.press('checkbox', 'Done: Cut the pieces');
    assert.ok((await cloth.studio.saved_ticket()).done.length > 0);
    await cloth.studio.page.evaluate(() => coatwright.kept());
    // It was heard, and the rack looked at.
    await cloth.page.waitForFunction(() => window.heard > 0);
    await cloth.page.evaluate(() => Promise.all(coat.ids.map(ticket_on_rack)));
    assert.equal(await changed.isVisible(), false);
    await cloth.studio.station('Draft');
    await cloth.studio.page.getByRole('slider').first().focus();
    await cloth.studio.page.keyboard.press('ArrowRight');
    await changed.waitFor();
  },

  'without a coat, with a torn one, or inside another page it says so': async (visitor) => {
    const page = await visitor.new_page(kWindow);
    await page.goto(`${visitor.url}cloth.html`);
    await page.getByText('No coat was handed over').waitFor();
    for (const torn of ['coatwright-table 1\x1ea\x1f{}\x1e', 'nonsense', '\x1e\x1f']) {
      await page.evaluate((order) => sessionStorage.setItem('coatwright-table', order), torn);
      await page.reload();
      await until(async () => (await page.getByRole('alert').textContent()).length > 20);
    }
    await page.goto('about:blank');
    await page.goto(`${visitor.url}cloth.html#remote=abcdefgh`);
    await page.getByText('No page that shows a coat on the cloth is open').waitFor();
  },

  'the page opens without a network once the studio was kept': async (visitor, site) => {
    const server = await serve(site);
    const page = await visitor.new_page(kWindow);
    await page.goto(server.url);
    const studio = new Studio(page);
    await studio.ready();
    await kept_offline(page);
    server.stop();
    await page.context().setOffline(true);
    const cloth = await Cloth.from(studio);
    await cloth.begin(kA2);
    await cloth.told('on the table');
  },

  'axe finds nothing to mend on any of its screens, and every key is as large as a finger': async (visitor) => {
    const axe = execFileSync('sh', [join(root, 'web/fetch.sh'), 'axe-core'], { encoding: 'utf8' }).trim();
    const source = readFileSync(join(axe, 'axe.min.js'), 'utf8');
    const look = async ({ page }, where) => {
      await page.evaluate(source);
      const { violations, passes } = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations', 'passes'] }));
      assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' | ')}`), [], where);
      assert.ok(passes.length > 10, `${where}: ${passes.length} rules looked`);
      const small = await page.locator('button:visible, select:visible, input:not([type=checkbox]):visible').evaluateAll((all) => all
        .map((e) => [e.id || e.value, e.getBoundingClientRect()]).filter(([, box]) => box.width < 43.5 || box.height < 43.5).map(([id, box]) => `${id} ${box.width}×${box.height}`));
      assert.deepEqual(small, [], where);
    };
    const cloth = await Cloth.open(visitor);
    await look(cloth, 'start');
    await cloth.to_show();
    await look(cloth, 'show');
    await cloth.page.locator('#more summary').click();
    await look(cloth, 'show, all of it');
    await cloth.press('Check again');
    await until(async () => await cloth.at() === 'check');
    await look(cloth, 'check');
  },
};
