// Looking at the board: moving and zooming by mouse, wheel and fingers. The handles tell where the drawing stands.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { Fingers, until } from './studio.mjs';

const kA = 'Hem depth, handle on the board', kB = 'Neckline fullness, handle on the board';

async function draft(visitor, device) {
  const studio = await visitor.studio(device);
  await studio.station('Draft');
  await studio.control('slider', kA).waitFor({ state: 'attached' });
  await studio.rest();
  return studio;
}
async function places(studio) {
  const a = await studio.middle('slider', kA), b = await studio.middle('slider', kB);
  return { a, b, apart: Math.hypot(a.x - b.x, a.y - b.y) };
}
const near = (p, q, reach, what) => assert.ok(Math.hypot(p.x - q.x, p.y - q.y) < reach, `${what}: ${JSON.stringify([p, q])}`);
async function empty_place(studio) {  // on the card, away from the drawing
  const board = await studio.box('img', /^Board/);
  return { x: board.x + 16, y: board.y + 16 };
}

export default {
  'two fingers zoom the board as far as they move apart': async (visitor) => {
    const studio = await draft(visitor, devices.tablet);
    const before = await places(studio);
    const board = await studio.box('img', /^Board/);
    const x = board.x + board.width / 2, y = board.y + board.height / 2;
    const fingers = await Fingers.on(studio.page);
    await fingers.put({ x: x - 40, y }, { x: x + 40, y });
    await fingers.move([{ x: x - 70, y }, { x: x + 70, y }], 12);
    await fingers.lift();
    await studio.rest();
    const after = await places(studio);
    assert.ok(Math.abs(after.apart / before.apart - 1.75) < 0.06, `fingers 1.75 times apart, drawing ${after.apart / before.apart}`);
  },

  'two fingers that move together move the board without zooming': async (visitor) => {
    const studio = await draft(visitor, devices.tablet);
    const before = await places(studio);
    const from = await empty_place(studio);
    const fingers = await Fingers.on(studio.page);
    await fingers.put(from, { x: from.x + 90, y: from.y });
    await fingers.move([{ x: from.x + 40, y: from.y + 30 }, { x: from.x + 130, y: from.y + 30 }], 12);
    await fingers.lift();
    await studio.rest();
    const after = await places(studio);
    assert.ok(Math.abs(after.apart / before.apart - 1) < 0.02);
    near(after.a, { x: before.a.x + 40, y: before.a.y + 30 }, 3, 'moved with the fingers');
  },

  'one finger on the card moves the board': async (visitor) => {
    const studio = await draft(visitor, devices.phone);
    const before = await places(studio);
    const from = await empty_place(studio);
    const fingers = await Fingers.on(studio.page);
    await fingers.put(from);
    await fingers.move([{ x: from.x + 50, y: from.y + 20 }]);
    await fingers.lift();
    await studio.rest();
    near((await places(studio)).a, { x: before.a.x + 50, y: before.a.y + 20 }, 3, 'moved with the finger');
  },

  'the wheel zooms about the pointer': async (visitor) => {
    const studio = await draft(visitor, devices.laptop);
    const before = await places(studio);
    await studio.page.mouse.move(before.a.x, before.a.y);
    await studio.page.mouse.wheel(0, -240);
    await studio.rest();
    const after = await places(studio);
    assert.ok(after.apart > 1.2 * before.apart, 'larger');
    near(after.a, before.a, 2, 'what is under the pointer stays');
    await studio.page.mouse.wheel(0, 240);
    await studio.rest();
    assert.ok(Math.abs((await places(studio)).apart / before.apart - 1) < 0.02, 'and back');
  },

  'a double tap or the key fits the drawing to the board again': async (visitor) => {
    const studio = await draft(visitor, devices.tablet);
    const before = await places(studio);
    const corner = await empty_place(studio);
    const fits = [
      async () => { const fingers = await Fingers.on(studio.page); await fingers.tap(corner); await fingers.tap(corner); },
      async () => studio.tap('button', 'Fit to board'),
    ];
    for (const fit of fits) {
      await studio.page.mouse.move(corner.x, corner.y);
      await studio.page.mouse.wheel(0, -400);
      await until(async () => (await places(studio)).apart > 1.3 * before.apart);
      // On a busy machine two taps may come too far apart to be one double tap: then they are made again.
      await until(async () => {
        await fit();
        await studio.page.waitForTimeout(500);
        const { a } = await places(studio);
        return Math.hypot(a.x - before.a.x, a.y - before.a.y) < 2;
      });
    }
  },
};
