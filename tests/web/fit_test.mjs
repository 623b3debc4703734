// The Fit station in a browser: from a coat on the dog to an altered pattern, and what is kept of it.
import assert from 'node:assert/strict';

import { devices, small_devices } from './studio_page.mjs';
import { Fingers, until } from './studio.mjs';
import { impossible, ticket } from './tickets.mjs';

export default {
  'the loop from measures to an altered coat and back to the dog is done by touch alone': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    const fingers = await Fingers.on(studio.page);
    const swipe = async (dy) => {
      await fingers.put({ x: 990, y: 500 });
      await fingers.move([{ x: 990, y: 500 + dy }]);
      await fingers.lift();
      await studio.rest();
    };
    const thumb = async (role, name) => {
      await studio.rest();
      for (let i = 0; i < 12; i += 1) {
        const { x, y, height } = await studio.box(role, name);
        if (x < 800 || (y >= 84 && y + height <= 800)) break;  // what stands on the side sheet may be scrolled away
        await swipe(y < 84 ? 150 : -150);
      }
      await fingers.tap(await studio.middle(role, name));
    };
    await studio.open_ticket(ticket());
    const seams = async () => (await studio.saved_ticket()).fittings;
    await thumb('tab', 'Fit');
    await thumb('button', 'On the dog: Neck');
    await thumb('button', 'loose');
    await thumb('button', 'One quarter');
    await studio.sees(/taken in by ½ in/);
    await studio.sees(/^Neckline: .* → /);
    await thumb('button', 'Keep the note');
    await until(() => studio.has('button', /^Fitting 1/));
    assert.deepEqual((await seams())[0].notes, [{ place: 'neck', kind: 'loose', by: 'pinch', found: 6.35 }]);
    await studio.station('Fit');
    await thumb('button', 'Tail');
    await thumb('button', 'too short');
    await thumb('button', 'Three quarters');
    await thumb('button', 'Keep the note');
    await until(() => studio.has('button', 'Begin Fitting 2'));
    await thumb('button', 'Begin Fitting 2');
    await until(() => studio.has('button', /^Fitting 2/));
    await thumb('button', 'Side');
    await thumb('button', 'too low');
    await thumb('button', 'One half');
    await thumb('button', 'Keep the note');
    await until(async () => (await seams())?.length === 2);
    const kept = await seams();
    assert.equal(kept[0].notes.length, 2);
    assert.deepEqual(kept[1].notes, [{ place: 'side', kind: 'low', by: 'gap', found: 12.7 }]);
    assert.match(kept[0].date, /^\d{4}-\d\d-\d\d$/);
    await studio.station('Fit');
    await thumb('button', 'Undo');
    await until(async () => (await seams())[1].notes.length === 0);
    await studio.page.reload();
    await studio.ready();
    await studio.station('Fit');
    await until(() => studio.has('button', /^Fitting 2/));
  },

  'notes that contradict one another are named, and one is taken back': async (visitor) => {
    const note = (kind) => ({ place: 'tail', kind, by: 'gap', found: 12.7 });
    const studio = await visitor.studio(small_devices.small_phone);
    await studio.open_ticket(ticket({ fittings: [{ notes: [note('short'), note('long')] }] }));
    await studio.station('Fit');
    await studio.sees(/one note asks for more and another for less/);
    await studio.press('button', /^Fitting 1/);
    await studio.press('button', /^Take back: Tail: too long/);
    await until(async () => !(await studio.statuses()).some((text) => /asks for more and another/.test(text)));
    assert.deepEqual((await studio.saved_ticket()).fittings[0].notes, [note('short')]);
  },

  'a note that no coat can be drafted with is refused with its sentence, and not kept': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.station('Fit');
    await studio.press('button', 'Tail');
    await studio.press('button', 'too short');
    await studio.control('textbox', 'Amount').fill('99');
    await studio.press('button', 'Keep the note');
    await studio.sees(/The amount must lie between/);
    assert.equal((await studio.saved_ticket()).fittings, undefined);
  },

  'words of a fitting are text, whatever they hold': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    const words = '<img src=x onerror="window.broken=1"> “犬” & ½';
    await studio.open_ticket(ticket({ fittings: [{ words, notes: [] }] }));
    await studio.station('Fit');
    await studio.press('button', /^Fitting 1/);
    await until(async () => await studio.control('textbox', 'In words').inputValue() === words);
    assert.equal(await studio.page.evaluate(() => window.broken), undefined);
    assert.equal((await studio.saved_ticket()).fittings[0].words, words);
  },

  'a dog that no coat can be drafted for is told what to measure': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(impossible());
    await studio.station('Fit');
    await until(async () => (await studio.statuses()).some((text) => /drop/i.test(text)));
    assert.ok(!await studio.has('button', 'Begin Fitting 1'));
  },
};
