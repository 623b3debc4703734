// Everything can be undone, also after the page was left.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';

const value = (studio) => studio.control('slider', 'Hem depth').inputValue();
const enabled = (studio, name) => studio.control('button', name).isEnabled();

async function three_changes(studio) {
  await studio.station('Draft');
  const values = [await value(studio)];
  for (const choice of ['Hem depth', 'Chest ease', 'Hem depth']) {
    const before = await studio.control('slider', choice).inputValue();
    await studio.control('slider', choice).focus();
    await studio.page.keyboard.press('ArrowRight');
    await until(async () => await studio.control('slider', choice).inputValue() !== before);
    values.push(await value(studio));
  }
  return values;
}

export default {
  'each change is undone and redone, one by one': async (visitor) => {
    const studio = await visitor.studio();
    assert.equal(await enabled(studio, 'Undo'), false);
    const [first, second, third, fourth] = await three_changes(studio);
    assert.equal(second, third);
    for (const wanted of [third, second, first]) {
      await studio.tap('button', 'Undo');
      await until(async () => await value(studio) === wanted);
    }
    await until(async () => !await enabled(studio, 'Undo'));
    for (let i = 0; i < 3; i += 1) await studio.tap('button', 'Redo');
    await until(async () => await value(studio) === fourth && !await enabled(studio, 'Redo'));
  },

  'the keyboard undoes and redoes': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const values = await three_changes(studio);
    await studio.page.keyboard.press('Control+z');
    await until(async () => await value(studio) === values[2]);
    await studio.page.keyboard.press('Control+Shift+z');
    await until(async () => await value(studio) === values[3]);
  },

  'a whole drag is one step': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.station('Draft');
    const before = await value(studio);
    const { x, y } = await studio.middle('slider', 'Hem depth, handle on the board');
    await studio.page.mouse.move(x, y);
    await studio.page.mouse.down();
    await studio.page.mouse.move(x, y + 40, { steps: 20 });
    await studio.page.mouse.up();
    await until(async () => await value(studio) !== before);
    await studio.press('button', 'Undo');
    await until(async () => await value(studio) === before && !await enabled(studio, 'Undo'));
  },

  'a change after an undo clears what could be redone': async (visitor) => {
    const studio = await visitor.studio();
    await three_changes(studio);
    await studio.press('button', 'Undo');
    await until(() => enabled(studio, 'Redo'));
    await studio.press('button', 'Show centimetres');
    await until(async () => !await enabled(studio, 'Redo'));
  },

  'the ticket and its whole history are there after the page was left': async (visitor) => {
    const studio = await visitor.studio();
    const values = await three_changes(studio);
    await studio.press('button', 'Undo');
    await until(() => enabled(studio, 'Redo'));
    const ticket = await studio.saved_ticket();
    await studio.page.evaluate(() => window.coatwright.stored());
    await studio.page.reload();
    await studio.ready();
    assert.deepEqual(await studio.saved_ticket(), ticket);
    await studio.station('Draft');
    assert.equal(await value(studio), values[2]);
    await studio.press('button', 'Redo');
    await until(async () => await value(studio) === values[3]);
    for (let i = 0; i < 3; i += 1) await studio.press('button', 'Undo');
    await until(async () => await value(studio) === values[0] && !await enabled(studio, 'Undo'));
  },
};
