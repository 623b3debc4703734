// Readings typed as makers type them, on our keypad and on a keyboard.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { demo, ticket } from './tickets.mjs';

const taken = (studio, text) => until(() => studio.has('button', `Take out the reading ${text}`));
const fresh = (unit) => ticket({ unit, readings: { neck: [], chest: [] } });

export default {
  'a reading tapped on our keypad is kept as it was tapped': async (visitor) => {
    for (const device of [devices.tablet, devices.phone]) {
      const studio = await visitor.studio(device);
      await studio.press('button', 'Chest girth');
      for (const key of ['2', '7', 'Three eighths']) await studio.tap('button', key);
      await until(async () => await studio.said('textbox', 'Chest girth') === '27 3/8');
      await studio.tap('button', 'Keep');
      await taken(studio, '27 3/8 in');
      await until(async () => await studio.said('textbox', 'Chest girth') === '');
      assert.deepEqual((await studio.saved_ticket()).readings.chest, [...demo.readings.chest, '27 3/8 in']);
    }
  },

  'sixteenths add up on the keypad and the last figure can be deleted': async (visitor) => {
    const studio = await visitor.studio();
    await studio.press('button', 'Neck girth');
    for (const key of ['1', '6', 'One half', 'One sixteenth more']) await studio.tap('button', key);
    await until(async () => await studio.said('textbox', 'Neck girth') === '16 9/16');
    await studio.tap('button', 'Delete the last figure');
    await until(async () => await studio.said('textbox', 'Neck girth') === '16');
  },

  'a reading typed on a keyboard comes back letter by letter': async (visitor) => {
    const typed = {
      in: ['27 3/8 in', '27⅜ in', '2\' 3 3/8" in', '69,5 cm', '27.375 in'],
      cm: ['69,5 cm', '27 3/8 in', '695 mm', '69.5 cm'],
    };
    for (const [unit, texts] of Object.entries(typed)) {
      const studio = await visitor.studio(devices.laptop);
      await studio.open_ticket(fresh(unit));
      await studio.station('Measure');
      const wanted = texts.map((text) => text.replace('" in', '"'));
      for (const text of wanted) await studio.take('Chest girth', text);
      await taken(studio, wanted.at(-1));
      assert.deepEqual((await studio.saved_ticket()).readings.chest, wanted, unit);
    }
  },

  'a number without a unit is read in the unit that is shown': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.press('button', 'Neck girth');
    await studio.control('textbox', 'Neck girth').waitFor({ state: 'attached' });
    await studio.type('16⅝');
    await studio.page.keyboard.press('Enter');
    await taken(studio, '16⅝ in');
    await studio.press('button', 'Show centimetres');
    await until(() => studio.has('button', 'Show inches'));
    await studio.type('42,5');
    await studio.page.keyboard.press('Enter');
    await taken(studio, '42,5 cm');
    assert.deepEqual((await studio.saved_ticket()).readings.neck, [...demo.readings.neck, '16⅝ in', '42,5 cm']);
  },

  'a malformed entry gets a sentence that names it and stays to be mended': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.press('button', 'Neck girth');
    const field = studio.control('textbox', 'Neck girth');
    const faults = {
      '16 3/0': /3\/0.*nothing below the line/, 'sixteen': /“sixteen”.*not a unit/, '16 ?': /“\?”.*not part of a number/, '16 kg': /“kg”.*not a unit/, '16 9/8': /one or more/,
      '-16': /more than nothing|not part of a number/, '16 in 3 cm': /mixes units/, '900 in': /no dog is outside/, '1 in': /no dog is outside/,
    };
    for (const [text, sentence] of Object.entries(faults)) {
      await field.fill(text);
      await field.press('Enter');
      await studio.sees(sentence);
      assert.match((await studio.statuses()).find((one) => sentence.test(one)), /[Nn]eck girth/, text);
      assert.match(await studio.said('textbox', 'Neck girth'), sentence, `${text}: the sentence stands beside its field`);
      assert.equal(await field.inputValue(), text);
    }
    await field.fill('16 1/4');
    await field.press('Enter');
    await taken(studio, '16 1/4 in');
    assert.deepEqual((await studio.saved_ticket()).readings.neck, [...demo.readings.neck, '16 1/4 in']);
  },

  'of five readings the middle one counts and the spread is told': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.open_ticket(fresh('cm'));
    await studio.station('Measure');
    for (const text of ['70', '69', '71', '74', '70,5']) await studio.take('Chest girth', text);
    await taken(studio, '70,5 cm');
    await studio.sees(/chest girth lie 5 cm apart/);
    await studio.take('Chest girth', '70');
    await studio.sees(/Chest girth has too many readings/);
    assert.equal(await studio.control('textbox', 'Chest girth').inputValue(), '70');
    await studio.page.keyboard.press('Backspace');
    await studio.page.keyboard.press('Backspace');
    await studio.press('button', 'Take out the reading 74 cm');
    await until(async () => !await studio.has('button', 'Take out the reading 74 cm'));
    await studio.press('button', 'All measures');
    await until(() => studio.has('button', /^Chest girth: 70\.25 cm|^Chest girth: 70[.,]3 cm/));
    assert.deepEqual((await studio.saved_ticket()).readings.chest, ['70 cm', '69 cm', '71 cm', '70,5 cm']);
  },

  'what is half typed is kept when the maker goes to another measure': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.press('button', 'Neck girth');
    await studio.control('textbox', 'Neck girth').waitFor({ state: 'attached' });
    await studio.type('16 5/8');
    await studio.press('button', 'Next measure');
    await studio.control('textbox', 'Chest girth').waitFor({ state: 'attached' });
    await studio.type('27');
    await until(async () => await studio.control('textbox', 'Chest girth').inputValue() === '27');
    await studio.station('Draft');
    await studio.station('Measure');
    assert.equal(await studio.control('textbox', 'Chest girth').inputValue(), '27');
    assert.deepEqual((await studio.saved_ticket()).readings.neck, [...demo.readings.neck, '16 5/8 in']);
  },
};
