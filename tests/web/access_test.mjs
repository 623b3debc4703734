// What assistive technology and fingers need: names, roles, groups, and room.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';

const kLeast = 48;  // CSS px, shared by Material's advice of 48 dp and the interface's plan

async function controls(studio) {
  return studio.page.locator('#mirror > *, #mirror [data-id]').evaluateAll((all) => all.filter((e) => e.dataset.id !== undefined).map((e) => {
    const { x, y, width, height } = e.getBoundingClientRect();
    return { id: e.dataset.id, tag: e.tagName, role: e.getAttribute('role') ?? (e.type === 'range' ? 'slider' : e.type === 'text' ? 'textbox' : e.localName),
      name: (e.getAttribute('aria-label') ?? e.textContent).trim(), x, y, width, height };
  }));
}
const is_target = (one) => one.tag === 'BUTTON' || one.tag === 'INPUT';

async function everywhere(visitor, device, look) {
  const studio = await visitor.studio(device);
  const scenes = {
    Measure: async () => studio.station('Measure'),
    keypad: async () => studio.press('button', 'Neck girth'),
    Draft: async () => studio.station('Draft'),
    Print: async () => studio.station('Print'),
    rack: async () => studio.press('button', /^Ticket: /),
  };
  for (const [scene, go] of Object.entries(scenes)) {
    await go();
    await studio.rest();
    await look(studio, scene);
  }
}

export default {
  'every control has a role and a name, and no two share an id': async (visitor) => {
    await everywhere(visitor, devices.tablet, async (studio, scene) => {
      const all = await controls(studio);
      assert.ok(all.length > 10, scene);
      for (const one of all) assert.ok(one.role && one.name, `${scene}: ${JSON.stringify(one)}`);
      const elements = await studio.page.evaluate(() => [...document.querySelectorAll('[id]')].map((e) => e.id));
      for (const ids of [elements, all.map((one) => one.id)]) {
        assert.deepEqual(ids.filter((id, i) => ids.indexOf(id) !== i), [], scene);
      }
    });
  },

  'options belong to a named group': async (visitor) => {
    await everywhere(visitor, devices.tablet, async (studio) => {
      const alone = await studio.page.getByRole('radio').evaluateAll((all) => all
        .filter((e) => !e.closest('[role=radiogroup][aria-label]'))
        .map((e) => e.dataset.id));
      assert.deepEqual(alone, []);
    });
  },

  'what a finger touches is at least 48 pixels wide and high, on every device': async (visitor) => {
    for (const [name, device] of Object.entries(devices)) {
      await everywhere(visitor, device, async (studio, scene) => {
        // Sheets on the board's plan are as large as the zoom shows them, and lines are touched on the board itself.
        const targets = (await controls(studio)).filter((one) => is_target(one) && !/^(sheet|line)\./.test(one.id));
        assert.ok(targets.length > 8);
        const small = targets.filter((one) => one.width < kLeast - 0.5 || one.height < kLeast - 0.5)
          .map((one) => `${one.name} ${one.width.toFixed(0)}×${one.height.toFixed(0)}`);
        assert.deepEqual(small, [], `${name}, ${scene}`);
      });
    }
  },

  'no two targets of a side sheet or the table row lie on each other': async (visitor) => {
    for (const [name, device] of Object.entries(devices)) {
      await everywhere(visitor, device, async (studio, scene) => {
        const targets = (await controls(studio)).filter((one) => is_target(one) && !/^(sheet\.|line\.|tape\.|handle\.|note|notice|card\.|reading\.|status\.)/.test(one.id));
        const over = [];
        targets.forEach((a, i) => targets.slice(i + 1).forEach((b) => {
          const w = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x), h = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
          if (w > 1 && h > 1) over.push(`${a.name} and ${b.name}: ${w.toFixed(0)}×${h.toFixed(0)}`);
        }));
        assert.deepEqual(over, [], `${name}, ${scene}`);
      });
    }
  },
};
