// The real print path: the browser prints the page to a PDF, and poppler measures what came out.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { measured } from './printed.mjs';
import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { giant, ticket } from './tickets.mjs';

const kMargin = 12.7, kOverlap = 15;  // mm, the sheets of every ticket here
const kTolerance = 0.1;               // mm
const kPoint = 25.4 / 72;             // mm

// ISO 216 and ANSI/ASME Y14.1, upright, mm.
const papers = { a4: [210, 297], letter: [215.9, 279.4], tabloid: [279.4, 431.8] };

// The browser makes pages of whole points only, so that a side of A4 may be half a point off at most.
function is_side(got, wanted) {
  return Math.abs(got - wanted) <= kTolerance || Math.abs(got - Math.round(wanted / kPoint) * kPoint) <= 0.02;
}

async function check_print(studio, wanted) {
  await studio.open_ticket(wanted);
  const count = await until(async () => {
    const words = (await studio.statuses()).map((text) => text.match(/^(\d+) sheets?, (upright|on its side)|^One sheet/)).find(Boolean);
    assert.ok(words, 'the count of sheets');
    return words;
  });
  const sheets = Number(count[1] ?? 1);
  const sides = papers[wanted.print.paper];
  const [width, height] = count[2] === 'on its side' ? [...sides].reverse() : sides;
  const folder = mkdtempSync(join(tmpdir(), 'coatwright-'));
  try {
    const pdf = join(folder, 'sheets.pdf');
    await studio.print_to(pdf);
    const found = measured(pdf, width, height, kMargin, kOverlap);
    assert.equal(found.pages.length, sheets + 1, 'the sheets and their cover');
    assert.equal(found.pages.filter((page) => page.row !== null).length, sheets);
    for (const page of found.pages) {
      const name = page.row === null ? 'the cover' : `row ${page.row + 1}, column ${page.column + 1}`;
      assert.ok(is_side(page.width, width) && is_side(page.height, height), `${name}: ${page.width} × ${page.height} mm`);
      for (const axis of ['check_x', 'check_y']) {
        assert.ok(Math.abs(page[axis][0] - 100) <= kTolerance, `${name}: ${axis} ${page[axis][0]} mm`);
      }
    }
    let samples = 0;
    for (const one of found.joins) {
      assert.ok(one.worst_mm <= kTolerance, `sheets ${one.first} and ${one.second} are ${one.worst_mm} mm off`);
      samples += one.samples;
    }
    return { pages: found.pages, joins: found.joins, samples };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
const print = (paper, changes = {}) => ({ paper, turn: 'fewest', margin: kMargin, overlap: kOverlap, opened: false, 'body-lines': false, ...changes });

export default {
  'A4 sheets of the demo coat are at true scale and meet': async (visitor) => {
    const { samples } = await check_print(await visitor.studio(), ticket({ print: print('a4') }));
    assert.ok(samples > 100, `${samples} samples`);
  },

  'letter sheets of the demo coat are at true scale and meet': async (visitor) => {
    const { samples } = await check_print(await visitor.studio(devices.laptop), ticket({ print: print('letter') }));
    assert.ok(samples > 100, `${samples} samples`);
  },

  'tabloid sheets of the demo coat are at true scale and meet': async (visitor) => {
    const { samples } = await check_print(await visitor.studio(devices.phone), ticket({ print: print('tabloid') }));
    assert.ok(samples > 50, `${samples} samples`);
  },

  'A4 sheets of a giant’s whole coat are at true scale and meet sideways and downwards': async (visitor) => {
    const { samples, joins } = await check_print(await visitor.studio(), giant(print('a4', { opened: true })));
    assert.ok(samples > 1000, `${samples} samples`);
    const crossed = (axis) => joins.some((one) => one.samples > 20 && one.first[axis] !== one.second[axis]);
    assert.ok(crossed(0) && crossed(1));
  },

  'the print key has the sheets in place when it asks the browser to print': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      window.print = () => { window.printed = document.querySelectorAll('#print svg').length; };
    });
    await studio.station('Print');
    await until(() => studio.control('button', 'Print').isEnabled());
    await studio.tap('button', 'Print');
    await studio.page.waitForFunction(() => window.printed > 1);
  },

  'what the press makes stands alone on the page when the browser is asked to print it, with its own rules': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      window.printed = [];
      window.print = () => {
        const root = document.getElementById('print');
        const rules = [...document.adoptedStyleSheets].flatMap((sheet) => [...sheet.cssRules].map((rule) => rule.cssText)).join('');
        window.printed.push({ words: root.textContent, drawings: root.querySelectorAll('svg').length, rules, styles: root.querySelectorAll('style, script, meta').length });
      };
    });
    const printed = async (key, count) => {
      await until(() => studio.control('button', key).isEnabled());
      await studio.press('button', key);
      await studio.page.waitForFunction((wanted) => window.printed.length === wanted, count);
      const one = await studio.page.evaluate(() => window.printed.at(-1));
      assert.match(one.rules, /@page/);
      assert.equal(one.styles, 0, 'rules come by themselves');
      return one;
    };
    await studio.station('Fit');
    const trial = await printed('Print the trial', 1);
    assert.ok(trial.drawings > 1, 'a drawing a sheet');
    const card = await printed('Print the fit card', 2);
    assert.match(card.words, /Never pin on the dog/);
    await studio.station('Make');
    const make = await printed('Print the make sheet', 3);
    assert.match(make.words, /Cut the pieces/);
    assert.doesNotMatch(make.words, /Never pin on the dog: pinch/, 'the card is gone');
  },
};
