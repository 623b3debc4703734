// The studio as its users meet it: controls found by role and name in the page's mirror, pressed through it as a screen
// reader does, or with a real mouse or finger where the mirror says they stand.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';

// Tries again until `check` passes (does not throw, and does not return false); fails with its last word.
export async function until(check, limit_ms = 10000) {
  const end = Date.now() + limit_ms;
  for (;;) {
    try {
      const answer = await check();
      assert.notEqual(answer, false, `not so within ${limit_ms / 1000} s: ${check}`);
      return answer;
    } catch (error) {
      if (Date.now() > end) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, 40));
  }
}

// The studio is kept by its service worker, which serves the page from now on.
export async function kept_offline(page) {
  await page.evaluate(() => coatwright.kept());
  await until(() => page.evaluate(() => navigator.serviceWorker.controller !== null));
}

export const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
const middle_of = (box) => ({ x: box.x + box.width / 2, y: box.y + box.height / 2 });

// Which part of the Print station each file's key stands in.
const print_parts = {
  'Save as PDF': 'On paper here',
  ...Object.fromEntries(['One page, PDF', 'To cut by, SVG', 'Pattern, DXF', 'Sheets, SVG', 'Pattern, SVG'].map((key) => [key, 'Shop or machine'])),
  ...Object.fromEntries(['Ticket file', 'Make sheet, PDF', 'Recipe, PDF', 'Picture, PNG', 'Readings, CSV', 'Cut list, CSV'].map((key) => [key, 'To a person'])),
  ...Object.fromEntries(['Class packet, PDF', 'All their sheets, PDF', 'All make sheets, PDF', 'Handout with lines to write on, PDF', 'Measuring sheet, PDF',
    'Measures and nest, PDF', 'Sheets of these, PDF', 'Nest, true scale', 'Handout in these sizes, PDF'].map((key) => [key, 'For several'])),
};

export class Studio {
  constructor(page) {
    this.page = page;
  }

  async ready() {
    await this.page.waitForFunction(() => document.documentElement.dataset.ready === 'yes', null, { timeout: 30000 });
    await this.control('tab', 'Measure').waitFor({ state: 'attached' });
  }
  // Until the page has drawn all that it wants to. Needs the meter.
  async rest() {
    await this.page.evaluate(async () => {
      for (let quiet = 0, before = -1; quiet < 6; quiet += 1) {
        await new Promise(requestAnimationFrame);
        if (window.meter.frames !== before) quiet = 0;
        before = window.meter.frames;
      }
    });
  }

  // Without the focus, whose ring is on pictures, and at rest.
  async look_away() {
    await this.page.evaluate(() => document.activeElement.blur());
    await this.rest();
  }

  // The mirror's element. `name` is a text or a pattern; a button's name may be followed by its value: "Chest girth: 27 in".
  all(role, name) {
    if (role === 'status') return this.page.locator('#mirror p').filter({ hasText: name });
    if (name instanceof RegExp || role !== 'button') return this.page.getByRole(role, { name, exact: true });
    return this.page.getByRole(role, { name: new RegExp(`^${escaped(name)}(: .*)?$`, 's') });
  }
  control(role, name) {
    return this.all(role, name).first();
  }
  async has(role, name) {
    return await this.all(role, name).count() > 0;
  }
  // Pressed as a screen reader presses it.
  async press(role, name) {
    await this.control(role, name).evaluate((element) => element.click());
  }
  async station(name) {
    await this.press('tab', name);
    await until(async () => await this.control('tab', name).getAttribute('aria-selected') === 'true');
  }
  // Scrolled into sight, as the keyboard's focus does it.
  async show(role, name) {
    await this.control(role, name).focus();
  }
  // A slider or field set as a screen reader sets it.
  async set(role, name, value) {
    await this.control(role, name).evaluate((element, text) => {
      element.value = text;
      element.dispatchEvent(new Event('input', { bubbles: true }));
      element.dispatchEvent(new Event('change', { bubbles: true }));
    }, String(value));
  }

  // Where it stands, CSS pixels.
  async box(role, name) {
    const box = await this.control(role, name).boundingBox();
    assert.ok(box, `${role} ${name} stands nowhere`);
    return box;
  }
  async middle(role, name) {
    return middle_of(await this.box(role, name));
  }
  async tap(role, name) {
    const { x, y } = await this.middle(role, name);
    await this.page.touchscreen.tap(x, y);
  }
  async click(role, name) {
    const { x, y } = await this.middle(role, name);
    await this.page.mouse.click(x, y);
  }

  // What is said about a control beside its name: a slider's, field's or row's value in words, and the note beside it.
  async said(role, name) {
    return this.control(role, name).evaluate((element) => {
      const value = element.tagName === 'INPUT' ? element.getAttribute('aria-valuetext') ?? element.value : element.textContent;
      const note = [...document.querySelectorAll('#mirror [data-note]')].find((one) => one.dataset.note === element.dataset.id);
      return [value, note?.textContent].filter(Boolean).join(' ');
    });
  }
  // Every sentence that stands on the page, as a screen reader gets it.
  async statuses() {
    return this.page.locator('#mirror p:not([data-note])').evaluateAll((elements) => elements.map((e) => e.textContent).filter(Boolean));
  }
  async sees(words) {
    await until(async () => {
      const all = await this.statuses();
      assert.ok(all.some((text) => (words instanceof RegExp ? words.test(text) : text.includes(words))),
        `no sentence with ${words} among:\n  ${all.join('\n  ')}`);
    });
  }

  // Typed on the keyboard, as it stands.
  async type(text) {
    await this.page.keyboard.type(text);
  }
  // Takes a reading of a measure with the keyboard.
  async take(measure, text) {
    if (!await this.has('textbox', measure)) await this.press('button', measure);
    await this.control('textbox', measure).waitFor({ state: 'attached' });
    await until(async () => await this.control('textbox', measure).inputValue() === '');
    await this.type(text);
    await this.page.keyboard.press('Enter');
  }

  // The part of the Print station that a key stands in.
  async print_part(name) {
    await this.station('Print');
    if (await this.control('radio', name).getAttribute('aria-checked') !== 'true') await this.press('radio', name);
  }

  // A ticket chosen from the maker's files; `content` is a ticket or the bytes of a file.
  async open_ticket(content) {
    await this.station('Print');
    const chooser = this.page.waitForEvent('filechooser');
    await this.press('button', 'Open a ticket file');
    const buffer = Buffer.isBuffer(content) ? content : Buffer.from(JSON.stringify(content));
    await (await chooser).setFiles({ name: 'ticket.json', mimeType: 'application/json', buffer });
    if (content.dog !== undefined) await this.sees(new RegExp(`^Opened: ${escaped(content.dog)}`));
  }
  // A backup chosen on the rack, which is on the screen: its bytes or its path. Bytes are made a file in the page itself,
  // which takes it a moment.
  async put_back(backup) {
    const chooser = this.page.waitForEvent('filechooser');
    await this.press('button', 'Open a file');
    await (await chooser).setFiles(typeof backup === 'string' ? backup : { name: 'rack.json', mimeType: 'application/json', buffer: backup });
  }
  // A file that the studio offers: its name and text.
  async save(button) {
    await this.print_part(print_parts[button]);
    await until(() => this.control('button', button).isEnabled());
    const download = this.page.waitForEvent('download');
    await this.press('button', button);
    const file = await download;
    return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
  }
  async saved_ticket() {
    return JSON.parse((await this.save('Ticket file')).bytes.toString());
  }
  // Prints as the browser's own print command does.
  async print_to(path) {
    await this.print_part('On paper here');
    await until(() => this.control('button', 'Print').isEnabled());
    await this.page.pdf({ path, preferCSSPageSize: true, printBackground: true });
  }

  // A place on the hem, between its own handle and that of the belly band's width.
  async place_on_hem() {
    const a = await this.middle('slider', 'Hem depth, handle on the board');
    const b = await this.middle('slider', 'Band width, handle on the board');
    return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  }
}

// Real fingers on the screen, through the browser's own input.
export class Fingers {
  static async on(page) {
    return new Fingers(await page.context().newCDPSession(page));
  }
  constructor(session) {
    this.session = session;
    this.down = [];
  }
  async send(type) {
    await this.session.send('Input.dispatchTouchEvent', { type, touchPoints: this.down.map((p, id) => ({ ...p, id })) });
  }
  async put(...places) {
    for (const place of places) {
      this.down.push(place);
      await this.send('touchStart');
    }
  }
  // Moves all fingers to these places in `steps` moves.
  async move(places, steps = 8) {
    const from = this.down;
    for (let i = 1; i <= steps; i += 1) {
      const t = i / steps;
      this.down = from.map((p, k) => ({ x: p.x + t * (places[k].x - p.x), y: p.y + t * (places[k].y - p.y) }));
      await this.send('touchMove');
    }
  }
  async lift() {
    this.down = [];
    await this.send('touchEnd');
  }
  async tap(place) {
    await this.put(place);
    await this.lift();
  }
}
