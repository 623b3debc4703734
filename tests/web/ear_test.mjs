// To the ear and under the keys: what a person has of the studio who does not see it, or has no pointer.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

import { by_playwright, main_job } from './main_job.mjs';
import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

// Where the focus is: the name of what has it; "the page" if nothing has.
const focused = (page) => page.evaluate(() => {
  const element = document.activeElement;
  return document.getElementById('mirror').contains(element) ? element.getAttribute('aria-label') : 'the page';
});

// A keyboard that counts its keys. After each of them the focus is on a control.
class Keys {
  constructor(page) {
    Object.assign(this, { page, count: 0 });
  }
  async press(...names) {
    for (const name of names) {
      await this.page.keyboard.press(name);
      this.count += name === '+' ? 1 : name.split('+').length;  // a modifier is a key too
      assert.notEqual(await focused(this.page), 'the page', `after ${name}, key ${this.count}`);
    }
  }
  async type(text) {
    await this.page.keyboard.type(text);
    this.count += text.length;
  }
  async tab_to(name, key = 'Tab') {
    for (let i = 0; i < 40 && !name.test(await focused(this.page)); i += 1) await this.press(key);
    await this.on(name);
  }
  async on(name) {
    assert.match(await focused(this.page), name);
  }
}

// What is told of itself, with the times. Read when all is quiet.
const listen = (page) => page.evaluate(() => {
  window.told = [];
  new MutationObserver(() => window.told.push({ at: performance.now(), words: document.getElementById('told').textContent }))
    .observe(document.getElementById('told'), { childList: true, subtree: true, characterData: true });
});
const told = (page) => page.evaluate(() => window.told);

export default {
  'the whole main job is done through roles and names, and nobody looks at the canvas': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await main_job(by_playwright(studio.page));
  },

  'from a new ticket to the printed sheets it takes at most 120 keys': async (visitor) => {
    const studio = await visitor.studio(devices.laptop, () => { window.print = () => { window.prints = (window.prints ?? 0) + 1; }; });
    const keys = new Keys(studio.page);
    await keys.press('Alt+0');
    await keys.on(/^New ticket$/);
    await keys.press('Enter');
    await keys.on(/^Dog’s name$/);
    await keys.type('Halyard');
    await keys.press('Enter');
    await keys.on(/^Name of the coat$/);
    await keys.tab_to(/^Back length/);
    await keys.press('Enter');
    // Enter keeps a reading, and Enter again goes on to the next one. The neck is read wrong.
    for (const [name, text] of [['Back length', '15.5'], ['Neck girth', '19'], ['Chest girth', '19 1/4'], ['Side drop', '7.75'], ['Breast length', '18.5']]) {
      await keys.on(new RegExp(`^${name}$`));
      await keys.type(text);
      await keys.press('Enter');
      await keys.on(new RegExp(`^${name}$`));
      await keys.press('Enter');
    }
    // The finding leads to its reading, which is taken out and read again.
    await keys.press('Alt+1');
    await keys.tab_to(/to check: go there$/, 'Shift+Tab');
    await keys.press('Enter');
    await keys.on(/^Neck girth$/);
    await keys.tab_to(/^Take out the reading 19 in/, 'Shift+Tab');
    await keys.press('Enter');
    await keys.on(/^Neck girth$/);
    await keys.type('12.5');
    await keys.press('Enter');
    await keys.press('Alt+2');
    await keys.on(/^Wrap coat$/);
    await keys.press('ArrowRight');
    await keys.on(/^Strap coat$/);
    await keys.tab_to(/^Chest ease$/);
    await keys.press('ArrowRight', 'ArrowRight');
    await keys.tab_to(/^Collar: none$/);
    await keys.press('Enter', 'Tab', 'ArrowRight');
    await keys.on(/^stand$/);
    await keys.press('Alt+4');
    await studio.sees(/^Laid$/);
    await keys.press('Alt+5');
    await keys.on(/^On paper here$/);
    await keys.tab_to(/^Print$/);
    await keys.press('Enter');
    await until(() => studio.page.evaluate(() => window.prints === 1 && document.querySelectorAll('#print svg').length > 2));
    const ticket = await studio.saved_ticket();
    assert.deepEqual([ticket.dog, ticket.style, ticket.readings.neck], ['Halyard', 'strap', ['12.5 in']]);
    assert.ok(keys.count <= 120, `${keys.count} keys`);
  },

  'the focus is where the maker goes on after every deed, and what is told can be listened to': async (visitor) => {
    const studio = await visitor.studio(devices.laptop, () => { window.print = () => {}; });
    const { page } = studio;
    await listen(page);
    const from = await page.evaluate(() => performance.now());
    let deeds = 0;
    // Does something with a control, from the keyboard, and says where the focus is then; a text is the control's own name.
    const after = async (role, name, key, where) => {
      await studio.control(role, name).focus();
      await page.keyboard.press(key);
      deeds += 1;
      const now = await focused(page);
      if (where instanceof RegExp) assert.match(now, where, `${key} on ${name}`);
      else assert.equal(now, where, `${key} on ${name}`);
    };
    const stays = (role, name, key = 'Enter') => after(role, name, key, name);

    // Rack: opening, making, copying, putting away.
    await after('button', /^Ticket: /, 'Enter', 'New ticket');
    await after('button', 'New ticket', 'Escape', /^Ticket: /);
    await after('button', /^Ticket: /, 'Enter', 'New ticket');
    await after('button', 'About Coatwright', 'Enter', 'Back to the rack');
    await after('button', 'Back to the rack', 'Enter', 'About Coatwright');
    await after('radio', 'last changed', 'ArrowRight', 'dog’s name');
    await after('button', 'Copy: Bosun, Ferry deck coat', 'Enter', 'Dog’s name');
    await after('button', /^Ticket: /, 'Enter', 'New ticket');
    await after('button', 'New ticket', 'Enter', 'Dog’s name');
    await after('button', /^Ticket: /, 'Enter', 'New ticket');
    await studio.press('button', /^Delete: (?!Bosun)/);
    assert.notEqual(await focused(page), 'the page');
    await after('button', 'Put back', 'Enter', /./);
    await after('button', /^Open Bosun, Ferry deck coat$/, 'Enter', 'Measure').catch(async () => after('button', /^Open Bosun, Ferry deck coat:/, 'Enter', 'Measure'));

    // Measure: names, readings.
    await after('textbox', 'Dog’s name', 'Enter', 'Name of the coat');
    await after('textbox', 'Name of the coat', 'Enter', 'New ticket');
    await after('button', 'Measuring slip', 'Enter', /./);
    await page.keyboard.press('Escape');
    assert.equal(await focused(page), 'Measuring slip');
    await after('button', 'Client’s answer', 'Enter', /./);
    await after('button', 'Back to the ticket', 'Enter', 'Client’s answer');
    await after('button', 'Chest girth', 'Enter', 'Chest girth');
    for (const text of ['27', '27.5']) {
      await page.keyboard.type(text);
      await stays('textbox', 'Chest girth');
    }
    await page.keyboard.press('Enter');
    await after('button', 'Measure before', 'Enter', /./);
    await after('button', 'Next measure', 'Enter', /./);
    await page.keyboard.press('Escape');
    assert.match(await focused(page), /^[A-Z]/);
    await after('button', 'Neck girth', 'Enter', 'Neck girth');
    await page.keyboard.type('25');
    await stays('textbox', 'Neck girth');
    await until(async () => (await told(page)).some(({ words }) => /Neck girth/.test(words)));
    await after('button', /^Take out the reading 25/, 'Enter', /^Take out the reading|^Neck girth$/);
    await after('button', 'All measures', 'Enter', /^Neck girth: /);
    await after('radio', 'not said', 'ArrowRight', 'female');

    // The table: everything is undone and done again, to the end and beyond.
    await after('button', /^Show centimetres/, 'Enter', /^Show inches/);
    await after('button', /^Show inches/, 'Enter', /^Show centimetres/);
    for (let i = 0; i < 40 && await studio.control('button', 'Undo').isEnabled(); i += 1) await stays('button', 'Undo');
    await page.keyboard.press('Enter');
    assert.equal(await focused(page), 'Undo');
    await after('button', 'Undo', 'Control+Shift+z', 'Undo').catch(() => {});
    await stays('button', 'Evening').catch(async () => assert.equal(await focused(page), 'Day'));
    await after('button', 'Day', 'Enter', 'Evening');

    // Draft: style, options, lines.
    await after('tab', 'Measure', 'ArrowRight', 'Draft');
    await after('radio', 'Wrap coat', 'ArrowRight', 'Strap coat');
    await after('radio', 'Strap coat', 'ArrowRight', 'Underpanel coat');
    await after('radio', 'Underpanel coat', 'ArrowRight', 'Wrap coat');
    await stays('slider', 'Chest ease', 'ArrowRight');
    await after('button', 'Chest ease: back to the suggested value', 'Enter', 'Chest ease');
    await after('button', 'Collar: none', 'Enter', 'Collar: none');
    await after('radio', 'stand', 'Enter', 'stand');
    await after('button', /^Hem: /, 'Enter', /^Hem: /);
    await page.keyboard.press('Control+z');
    assert.notEqual(await focused(page), 'the page', 'after undo');

    // Lay, Print, Make.
    await after('tab', 'Draft', 'ArrowRight', 'Fit');
    await after('tab', 'Fit', 'ArrowRight', 'Lay');
    await studio.sees(/^Laid$/);
    for (const [name, next] of [['Lay', 'Cloth'], ['Cloth', 'To buy'], ['To buy', 'Quote'], ['Quote', 'Lay']]) await after('radio', name, 'ArrowRight', next);
    await after('button', 'Lay other coats with it', 'Enter', /./);
    await after('tab', 'Lay', 'ArrowRight', 'Print');
    await after('radio', 'A4', 'ArrowRight', 'Letter');
    await after('radio', 'A0', 'ArrowRight', /./);
    await after('radio', 'fewest', 'ArrowRight', 'upright');
    await stays('button', 'Sheet A1').catch(() => {});
    await stays('button', 'Print');
    await after('radio', 'On paper here', 'ArrowRight', 'On cloth');
    await after('radio', 'On cloth', 'ArrowRight', 'Shop or machine');
    await after('radio', 'Shop or machine', 'ArrowRight', 'To a person');
    await stays('button', 'Print the make sheet');
    await after('tab', 'Print', 'ArrowRight', 'Make');
    await after('button', /^Cut: /, 'Enter', /^Cut: /);
    await after('checkbox', 'Done: Cut the pieces', ' ', 'Done: Cut the pieces');
    await after('button', /^Next: /, 'Enter', /./);
    await after('tab', 'Make', 'Alt+1', /./);
    assert.notEqual(await focused(page), 'the page');

    // Many steps of a slider are told once they are over.
    await studio.station('Draft');
    await studio.control('slider', 'Chest ease').focus();
    const before = (await told(page)).length;
    for (let i = 0; i < 25; i += 1) await page.keyboard.press('ArrowRight');
    const all = await told(page);
    const seconds = (await page.evaluate(() => performance.now()) - from) / 1000;
    assert.ok(deeds > 50, `${deeds} deeds`);
    assert.ok(all.length <= 2 * seconds, `${all.length} in ${seconds} s`);
    for (const { words } of all) assert.ok(words.length <= 400, words);
    for (let i = 1; i < all.length; i += 1) assert.ok(all[i].at - all[i - 1].at >= 450, `${all[i - 1].words} | ${all[i].words}`);
    assert.ok(all.length - before <= 4, `a slider told ${all.length - before} times`);
  },

  'axe finds nothing to mend in the mirror of any station': async (visitor) => {
    const axe = execFileSync('sh', [join(root, 'web/fetch.sh'), 'axe-core'], { encoding: 'utf8' }).trim();
    const studio = await visitor.studio(devices.tablet);
    await studio.page.evaluate(readFileSync(join(axe, 'axe.min.js'), 'utf8'));
    const look = async (where) => {
      await studio.rest();
      const { violations, passes } = await studio.page.evaluate(() => window.axe.run(document, { resultTypes: ['violations', 'passes'] }));
      assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => n.html).join(' | ')}`), [], where);
      assert.ok(passes.length > 15, `${where}: ${passes.length} rules looked`);
    };
    for (const station of ['Measure', 'Draft', 'Fit', 'Lay', 'Print', 'Make']) {
      await studio.station(station);
      await look(station);
    }
    await studio.station('Measure');
    await studio.press('button', 'Chest girth');
    await look('a reading');
    await studio.press('button', /^Ticket: /);
    await look('the rack');
  },
};
