// One thumb on a small phone: the main job, where every key stands on the screen, and swipes that begin wherever there is room.
import assert from 'node:assert/strict';

import { small_devices } from './studio_page.mjs';
import { Fingers, until } from './studio.mjs';

const device = { ...small_devices.small_phone, deviceScaleFactor: 1 };

export default {
  'the main job is done with a thumb on a small phone, from the example to the printed sheets': async (visitor) => {
    const studio = await visitor.studio(device), fingers = await Fingers.on(studio.page);
    const { width, height } = device.viewport;
    const thumb = async (role, name) => {
      const { x, y, width: w, height: h } = await studio.box(role, name);
      assert.ok(x >= 0 && y >= 0 && x + w <= width + 1 && y + h <= height + 1, `${name} stands on the screen`);
      await fingers.tap({ x: x + w / 2, y: y + h / 2 });
    };
    // Swipes that begin on a field: the sheet goes with them, and no keyboard comes up.
    const sheet_top = () => studio.page.evaluate(() => Math.max(360, ...[...document.querySelectorAll('#mirror p[data-id^="note."]')]
      .map((note) => note.getBoundingClientRect().bottom)));  // below the notes that stand on it
    const swipe_to = async (role, name, from) => {
      for (let i = 0; i < 24; i += 1) {
        const box = await studio.box(role, name), top = await sheet_top();
        if (box.y >= top && box.y + box.height <= height) return;
        const start = from && i === 0 ? await studio.middle(...from) : { x: 160, y: 560 };
        await fingers.put(start);
        await fingers.move([{ x: start.x, y: start.y - (box.y < top ? -100 : 100) }]);
        await fingers.lift();
        await studio.rest();
      }
    };
    await studio.sees('Bosun is an example');
    await thumb('button', 'New ticket');
    await until(() => studio.has('button', /^Ticket: A dog without a name/));
    const field = await studio.box('textbox', 'Dog’s name');
    await swipe_to('button', 'Back length', ['textbox', 'Dog’s name']);
    const moved = await studio.box('textbox', 'Dog’s name');
    assert.ok(moved.y < field.y - 50, 'the field went with the finger');
    assert.notEqual(await studio.page.evaluate(() => document.activeElement.className), 'words');
    await thumb('button', 'Back length');
    const readings = { 'Neck girth': '16¾', 'Chest girth': '27', 'Side drop': '10', 'Breast length': '24' };
    for (const [next, typed] of [['Back length', '22½'], ...Object.entries(readings)]) {
      await until(() => studio.has('textbox', next));
      const names = { '½': 'One half', '¾': 'Three quarters' };
      for (const key of typed) await thumb('button', names[key] ?? key);
      await thumb('button', 'Keep');
      await until(() => studio.has('button', /^Next: /));
      await thumb('button', /^Next: /);
    }
    await until(() => studio.has('button', /^Ticket: A dog without a name/));
    await thumb('tab', 'Lay');
    await until(() => studio.has('radio', 'Cloth'));
    await swipe_to('radio', 'Cloth');
    await thumb('radio', 'Cloth');
    await until(() => studio.has('textbox', 'Width'));
    await swipe_to('textbox', 'Width');
    const before = await studio.box('textbox', 'Width');
    const at = await studio.middle('textbox', 'Width');
    await fingers.put(at);
    await fingers.move([{ x: at.x, y: at.y - 120 }]);
    await fingers.lift();
    await studio.rest();
    assert.ok((await studio.box('textbox', 'Width')).y < before.y - 60, 'Lay → Cloth goes with a finger that begins on a field');
    await thumb('tab', 'Print');
    await until(() => studio.control('button', 'Print').isEnabled());
    await swipe_to('button', 'Print');
    await studio.page.evaluate(() => { window.print = () => { window.printed = true; }; });
    await thumb('button', 'Print');
    await until(() => studio.page.evaluate(() => window.printed === true));
  },
};
