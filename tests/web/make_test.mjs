// The Make station in a browser: ticked off, looked at, kept, printed.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { impossible, ticket } from './tickets.mjs';

export default {
  'a step is ticked off with a finger, counts, and can be undone': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.station('Make');
    await studio.sees(/^0 of \d+ steps done$/);
    await studio.tap('checkbox', 'Done: Trial coat');
    await studio.sees(/^1 of \d+ steps done$/);
    assert.deepEqual((await studio.saved_ticket()).done, ['trial-coat']);  // at the Print station
    await studio.station('Make');
    await studio.press('button', 'Undo');
    await studio.sees(/^0 of \d+ steps done$/);
    assert.equal((await studio.saved_ticket()).done, undefined);
  },

  'what is done is there after the page was closed, and the next stage is open': async (visitor) => {
    const studio = await visitor.studio(devices.phone);
    await studio.station('Make');
    await studio.press('checkbox', 'Done: Trial coat');
    await studio.saved_ticket();
    await studio.page.reload();
    await studio.ready();
    await studio.station('Make');
    await studio.sees(/^1 of \d+ steps done$/);
    assert.ok(await studio.has('checkbox', 'Done: Cut the pieces'));
    assert.ok(!await studio.has('checkbox', 'Done: Trial coat'));
  },

  'a touched step tells its edges, lengths and allowance': async (visitor) => {
    const studio = await visitor.studio();
    await studio.station('Make');
    await studio.press('button', /^Edges/);
    await studio.press('button', /^Sew shell and lining together/);
    await until(() => studio.has('button', /^Sew shell and lining together.*Allowance .* in: /));
  },

  'the make sheet goes to the printer with a sketch beside each step that sews, and no word in it': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.station('Make');
    await studio.page.evaluate(() => { window.print = () => { window.printed = true; }; });
    await studio.press('button', 'Print the make sheet');
    await studio.page.waitForFunction(() => window.printed);
    await studio.page.emulateMedia({ media: 'print' });
    const steps = await studio.page.evaluate(() => [...document.querySelectorAll('#print li')].map((item) => {
      const figure = item.querySelector('figure'), box = figure?.getBoundingClientRect();
      const lines = [];
      const texts = document.createTreeWalker(item, NodeFilter.SHOW_TEXT);
      while (texts.nextNode()) {
        const range = document.createRange();
        range.selectNodeContents(texts.currentNode);
        if (!figure?.contains(texts.currentNode)) lines.push(...range.getClientRects());
      }
      const crossed = box && lines.some((line) => line.left < box.right - 1 && line.right > box.left + 1
        && line.top < box.bottom - 1 && line.bottom > box.top + 1);
      const own = item.getBoundingClientRect();
      return { text: item.textContent, drawn: Boolean(figure), crossed, whole: !box || box.bottom <= own.bottom + 1 };
    }));
    const sewn = steps.filter(({ text }) => /Allowance|Marks on/.test(text));
    assert.ok(sewn.length > 4, JSON.stringify(steps));
    for (const step of sewn) assert.ok(step.drawn && !step.crossed && step.whole, JSON.stringify(step));
    assert.ok(!steps.some(({ text, drawn }) => /^Try the coat on/.test(text) && drawn));
    if (process.env.MAKE_PDF) await studio.page.pdf({ path: process.env.MAKE_PDF, preferCSSPageSize: true });
  },

  'a dog that no coat can be drafted for is told what to measure': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(impossible());
    await studio.station('Make');
    await until(async () => (await studio.statuses()).some((text) => /drop/i.test(text)));
    assert.ok(!await studio.has('checkbox', 'Done: Trial coat'));
    await studio.press('button', 'Go to Measure');
    await until(async () => await studio.control('tab', 'Measure').getAttribute('aria-selected') === 'true');
  },

  'a pattern that changes after its pieces were cut says which': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(ticket());
    await studio.station('Make');
    await studio.press('button', /^Cut/);
    await studio.press('checkbox', 'Done: Cut the pieces');
    assert.ok((await studio.saved_ticket()).cut.some((one) => one.piece === 'body' && one.area > 0));
    assert.ok(!(await studio.statuses()).some((text) => /since its pieces were cut/.test(text)));
    await studio.open_ticket({ ...await studio.saved_ticket(), readings: { ...ticket().readings, back: ['21 in'] } });
    await studio.station('Make');
    await studio.sees(/since its pieces were cut.*: Body, /);
    await studio.press('button', /^Cut/);
    await studio.press('checkbox', 'Done: Cut the pieces');
    await until(async () => !(await studio.statuses()).some((text) => /since its pieces were cut/.test(text)));
  },

  'a ticket with steps of another coat keeps them': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(ticket({ done: ['sew-sail', 'trial-coat'] }));
    await studio.station('Make');
    await studio.sees(/^1 of \d+ steps done$/);
    await studio.press('checkbox', 'Done: Cut the pieces');
    await until(async () => ((await studio.saved_ticket()).done ?? []).length === 3);
  },
};
