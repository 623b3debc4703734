// The whole main job, by roles and names alone: nobody looks at the canvas. The same in every engine.
import assert from 'node:assert/strict';

// ---- what a screen reader has of the page; all of it runs there, as window.ear ---------------------------------------------

const ear = {
  // The first element with this role and a name that matches the pattern.
  find: (role, name) => {
    const roles = { BUTTON: 'button', P: 'paragraph' };
    const role_of = (e) => e.getAttribute('role') ?? (e.type === 'range' ? 'slider' : e.tagName === 'INPUT' ? 'textbox' : roles[e.tagName]);
    const name_of = (e) => e.getAttribute('aria-label') ?? e.textContent;
    return [...document.querySelectorAll('#mirror [data-id]')].find((e) => role_of(e) === role && new RegExp(name).test(name_of(e)));
  },
  has: (role, name) => Boolean(ear.find(role, name)),
  press: (role, name) => { const e = ear.find(role, name); if (!e || e.disabled) return false; e.click(); return true; },
  enter: (role, name, text) => {
    const e = ear.find(role, name);
    if (!e) return false;
    e.value = text;
    e.dispatchEvent(new Event('input', { bubbles: true }));
    if (e.className === 'number') e.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));
    return true;
  },
  // "true" or "false": checked, selected, unfolded.
  is: (value, role, name) => {
    const e = ear.find(role, name);
    return Boolean(e) && ['aria-checked', 'aria-selected', 'aria-expanded'].some((one) => e.getAttribute(one) === value);
  },
  told_of: (role, name) => ear.find(role, name).getAttribute('aria-describedby').split(' ').map((id) => document.getElementById(id)?.textContent).join(' '),
  // What is read next behind an element.
  behind: (role, name) => {
    const all = [...document.querySelectorAll('#mirror [data-id], #mirror [data-note]')];
    return all[all.indexOf(ear.find(role, name)) + 1].textContent;
  },
  text: (name) => ear.find('paragraph', name)?.textContent ?? '',
  // Printing and saving end here instead of in the browser's own dialogues.
  take_outputs: () => {
    ear.prints = 0;
    ear.files = [];
    window.print = () => { ear.prints += 1; };
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => { ear.files.push(blob); return make(blob); };
    HTMLAnchorElement.prototype.click = () => {};
    return true;
  },
  printed: () => ear.prints && document.querySelectorAll('#print svg').length,
  printed_words: () => document.querySelector('#print').textContent,
  saved: () => ear.files.length && ear.files.at(-1).text(),
  stored: () => window.coatwright.stored().then(() => true),
};
const kEar = `window.ear = { ${Object.entries(ear).map(([name, work]) => `${name}: ${work}`).join(',\n')} };`;

// ---- the job -----------------------------------------------------------------------------------------------------------

const kReadings = { 'Back length': '15 1/2', 'Neck girth': '19', 'Chest girth': '19 1/4', 'Side drop': '7 3/4', 'Breast length': '18 1/2' };

// `run(body)` runs the text of a function's body in the page and answers what it returns or promises; `again()` loads the page anew.
export async function main_job({ run, again }) {
  const ask = (work, ...args) => run(`return ear.${work}.apply(null, ${JSON.stringify(args)});`);
  const until = async (work, ...args) => {
    for (const end = Date.now() + 30000; ;) {
      const answer = await ask(work, ...args);
      if (answer) return answer;
      assert.ok(Date.now() < end, `not so: ${work} ${JSON.stringify(args)}`);
      await new Promise((resolve) => { setTimeout(resolve, 30); });
    }
  };
  const go = async (station) => {
    await until('press', 'tab', `^${station}$`);
    await until('is', 'true', 'tab', `^${station}$`);
  };
  await run(kEar);
  await ask('take_outputs');

  // A new ticket, its names and its readings.
  await until('press', 'button', '^Ticket: ');
  await until('press', 'button', '^New ticket$');
  await until('enter', 'textbox', '^Dog’s name$', 'Halyard');
  await until('enter', 'textbox', '^Name of the coat$', 'Quay coat');
  for (const [measure, text] of Object.entries(kReadings)) {
    await until('press', 'button', `^${measure}: not taken`);
    await until('has', 'textbox', `^${measure}$`);
    assert.match(await ask('told_of', 'textbox', `^${measure}$`), /^in .*(Along|Round|From)/, `where the tape runs for ${measure}`);
    await until('enter', 'textbox', `^${measure}$`, text);
    await until('has', 'button', `^Take out the reading ${text} in`);
    await until('press', 'button', '^All measures$');
  }

  // A reading that cannot be right is named behind its row, and mended from where it is told.
  await until('has', 'paragraph', '^(One thing|\\d things) to check$');
  assert.match(await ask('behind', 'button', '^Neck girth: 19 in'), /^Neck girth .*Measure it again/);
  await until('press', 'button', '^(One thing|\\d things) to check: go there$');
  await until('press', 'button', '^Take out the reading 19 in');
  await until('enter', 'textbox', '^Neck girth$', '12 1/2');
  await until('has', 'button', '^Take out the reading 12 1/2 in');
  await until('has', 'paragraph', '^\\d measures are estimated$');

  // Style and options; what each is for is told.
  await go('Draft');
  await until('press', 'radio', '^Strap coat$');
  await until('is', 'true', 'radio', '^Strap coat$');
  await until('has', 'paragraph', '^For small dogs');
  await until('press', 'button', '^Collar: none$');
  await until('press', 'radio', '^stand$');
  await until('has', 'slider', '^Height of the stand$');
  assert.match(await ask('told_of', 'slider', '^Height of the stand$'), /Leave the jaw free/);
  await until('enter', 'slider', '^Chest ease$', '40');
  assert.ok(await ask('has', 'button', '^Neckline: \\d'), 'how long a line is, without touching it');

  // Laid, and printed at true scale.
  await go('Lay');
  await until('has', 'paragraph', '^Laid$');
  assert.match(await ask('text', '^Length of the lay: |^Length'), /\d/);
  await go('Print');
  const count = Number((await until('text', '^\\d+ sheets?, ')).match(/^\d+/)[0]);
  assert.match(await ask('text', '^(Set the printer|This browser may change the size)'), /100 %/);
  await until('press', 'button', '^Print$');
  assert.ok(await until('printed') >= count);
  assert.match(await ask('printed_words'), /Halyard/);

  // Made: every step of the first stage is ticked, and counted.
  await go('Make');
  await until('press', 'checkbox', '^Done: Trial coat$');
  await until('is', 'true', 'checkbox', '^Done: Trial coat$');
  await until('has', 'paragraph', '^1 of \\d+ steps done$');

  // Saved, as a file and in the browser.
  await go('Print');
  await until('press', 'radio', '^To a person$');
  await until('press', 'button', '^Ticket file$');
  const ticket = JSON.parse(await until('saved'));
  assert.equal(ticket.dog, 'Halyard');
  assert.equal(ticket.name, 'Quay coat');
  assert.equal(ticket.style, 'strap');
  assert.deepEqual(ticket.readings.neck, ['12 1/2 in']);
  assert.deepEqual(ticket.done, ['trial-coat']);
  await until('stored');
  await again();
  await run(kEar);
  await until('has', 'button', '^Ticket: Halyard, Quay coat');
}

// A page of Playwright's for it.
export const by_playwright = (page) => ({
  run: (body) => page.evaluate(`(async () => { ${body} })()`),
  again: async () => {
    await page.reload();
    await page.waitForFunction(() => document.documentElement.dataset.ready === 'yes');
  },
});
