// The slip page as a client meets it: from the studio's link to the message that goes back.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

import { answer_in, request } from './slip_codes.mjs';
import { read_qr } from './qr.mjs';
import { until } from './studio.mjs';
import { devices, drawn, real_devices, serve } from './studio_page.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const kTransferLimit = 100e3;  // bytes, compressed
const kTarget = 44;            // CSS pixels

// The words of a key, as the word tables have them.
const tables = ['words', 'slip'].map((name) => readFileSync(join(root, `assets/${name}.txt`), 'utf8')).join('\n');
const words = (key, ...fillings) => {
  const line = tables.split('\n').find((l) => l.startsWith(`${key} = `));
  assert.ok(line, key);
  return line.slice(key.length + 3).replace(/\{(\d)\}/g, (all, n) => fillings[n] ?? all);
};
const name_of = (id) => words(`measure.${id}`);

class Slip {
  constructor(page) { this.page = page; }

  static async open(visitor, asked = {}, { device = devices.phone, before = () => {} } = {}) {
    return new Slip(await visitor.open(device, `slip.html#${request(asked)}`, before));
  }
  button(name) { return this.page.getByRole('button', { name, exact: typeof name === 'string' }); }
  press(name) { return this.button(name).click(); }
  // In a unit, where it was not said yet.
  begin(unit = 'Inches') { return this.press(new RegExp(`^(${unit}|Begin|Go on)$`)); }
  next() { return this.press(/^(Next: |Look over)/); }
  heading() { return this.page.getByRole('heading', { level: 2 }).textContent(); }
  field(n) { return this.page.getByRole('textbox', { name: words(`slip.reading-${n}`) }); }
  async type(...readings) {
    for (const [i, text] of readings.entries()) {
      if (i >= 2) await this.press('Another reading');
      await this.field(i + 1).fill(text);
    }
  }
  // Waits for the notes to hold the text.
  async told(text) {
    await this.page.getByRole('status').filter({ hasText: text }).first().waitFor();
  }
  message() { return this.page.getByRole('textbox', { name: 'The whole message' }).inputValue(); }
  // Every measure of `readings` in turn, up to the last screen.
  async measure(readings, unit) {
    await this.begin(unit);
    for (const list of Object.values(readings)) {
      await this.type(...list);
      await this.next();
    }
  }
}

const bosun = {
  back: ['22 1/2', '22 5/8'], neck: ['16 3/4', '16 3/4'], chest: ['26 3/8', '26 1/4', '26.5'], drop: ['9 3/4', '9¾'], breast: ['27', '27 1/8'],
  throat: ['2 7/8', '3'], 'girth-place': ['6', '15,5 cm'], loin: ['21 1/2', '54,5 cm'], underline: ['17 1/2', '1\' 5"'], weight: ['45', '20.4 kg'],
};

// Runs on the page: every control that is seen and smaller than the target.
const small_targets = (target) => [...document.querySelectorAll('button, a, textarea, label:has(input[type=radio]), input[type=text]')]
  .filter((e) => e.getClientRects().length > 0)
  .map((e) => ({ what: e.textContent || e.id, box: e.getBoundingClientRect() }))
  .filter(({ box }) => box.height < target || box.width < target)
  .map(({ what, box }) => `${what} ${box.width} × ${box.height}`);

export default {
  'a client measures at home, and the message holds what was typed': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: Object.keys(bosun), back: 'deck@harbour.example', note: 'Each one twice, please.' });
    assert.equal(await slip.heading(), words('slip.asks-for', 'The Sail Loft', 'Bosun'));
    await slip.page.getByText('Each one twice, please.').waitFor();
    await slip.page.getByText(words('caution.vet')).waitFor();
    await slip.begin();
    for (const [n, id] of Object.keys(bosun).entries()) {
      assert.equal(await slip.heading(), name_of(id));
      await slip.page.getByText(words(`measure.${id}.tape`)).waitFor();
      await slip.page.getByText(words('slip.progress', n + 1, 10)).waitFor();
      await slip.type(...bosun[id]);
      await slip.next();
    }
    assert.equal(await slip.heading(), 'Look over and send');
    for (const id of Object.keys(bosun)) assert.ok(await slip.page.getByRole('listitem').filter({ hasText: name_of(id) }).filter({ hasText: bosun[id][0] }).isVisible(), id);
    await slip.page.getByLabel('A note to the studio').fill('He moved.\nScar on the left.');
    await slip.page.getByText(words('slip.destination-named', 'The Sail Loft', 'deck@harbour.example')).waitFor();
    const message = await slip.message();
    const answer = answer_in(message);
    assert.deepEqual(answer, { token: 'AQIDBAUG', unit: 'in', readings: bosun, note: 'He moved.\nScar on the left.' });
    assert.ok(message.startsWith('Readings for Bosun\nBack length: 22 1/2 in; 22 5/8 in\n'), message);
    assert.ok(message.includes('Loin girth: 21 1/2 in; 54,5 cm\n'), message);
    const link = message.split('\n').at(-1);
    assert.ok(link.startsWith(`${visitor.url}#cwSL`) && link.length <= 500, link);
    const mail = new URL(await slip.page.getByRole('link', { name: 'Send by email' }).getAttribute('href'));
    assert.equal(mail.protocol + mail.pathname, 'mailto:deck@harbour.example');
    assert.equal(mail.searchParams.get('body'), message);
    assert.equal(mail.searchParams.get('subject'), 'Readings for Bosun');
  },

  'its fields hold as much as the program takes': async (visitor) => {
    const header = readFileSync(join(root, 'core/slip/slip.h'), 'utf8');
    const limit = (name) => Number(new RegExp(`${name}\\s*=\\s*(\\d+)`).exec(header)[1]);
    const slip = await Slip.open(visitor, { asked: ['neck'] });
    await slip.begin();
    assert.equal(await slip.field(1).evaluate((field) => field.maxLength), limit('kMostSlipReading'));
    await slip.type('16 3/4');
    await slip.next();
    assert.equal(await slip.page.getByLabel('A note to the studio').evaluate((field) => field.maxLength), limit('kMostAnswerNote'));
  },

  'fractions are set by a touch and read like typed ones': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck'] });
    await slip.begin();
    await slip.field(1).fill('16');
    await slip.press(words('slip.fraction', '¾'));
    assert.equal(await slip.field(1).inputValue(), '16 ¾');
    await slip.press(words('slip.fraction', '⅜'));
    assert.equal(await slip.field(1).inputValue(), '16 ⅜');
    assert.equal(await slip.button(words('slip.fraction', '⅜')).getAttribute('aria-pressed'), 'true');
    assert.ok(await slip.field(1).evaluate((field) => field === document.activeElement), 'the field keeps the focus');
    await slip.press(words('slip.whole'));
    assert.equal(await slip.field(1).inputValue(), '16');
    await slip.field(2).fill('16 3/8');
    await slip.press(words('slip.fraction', '½'));
    assert.equal(await slip.field(2).inputValue(), '16 ½');
    await slip.next();
    assert.deepEqual(answer_in(await slip.message()).readings, { neck: ['16', '16 ½'] });
  },

  'the unit is asked for before the first measure, and remembered': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck', 'chest'] });
    await slip.page.getByRole('heading', { name: words('slip.unit-asked') }).waitFor();
    assert.equal(await slip.button(/^(Begin|Go on)$/).count(), 0, 'nothing begins without a unit');
    await slip.begin('Centimetres');
    assert.ok(await slip.page.getByRole('radio', { name: 'centimetres' }).isChecked());
    await slip.type('42', '42');
    await slip.told(words('slip.good', '42 cm'));
    await slip.press('Back');
    assert.equal(await slip.button('Centimetres').count(), 0, 'said once is enough');
    await slip.press('Go on');
    assert.equal(await slip.heading(), name_of('chest'));
  },

  'a whole slip in the wrong unit is asked about before it is sent': async (visitor) => {
    const inches = { back: ['22.5', '22.5'], neck: ['16.75', '16.75'], chest: ['26.5', '26.25'], weight: ['45', '45'] };
    const metric = { back: ['57', '57.5'], neck: ['42.5', '42.5'], chest: ['67', '67'], weight: ['20.5', '20.5'] };
    for (const [readings, wrong, right, button] of [[inches, 'Centimetres', 'in', 'slip.were-inches'], [metric, 'Inches', 'cm', 'slip.were-centimetres']]) {
      const slip = await Slip.open(visitor, { asked: Object.keys(readings) });
      await slip.measure(readings, wrong);
      const asks = slip.page.getByRole('alert').filter({ hasText: words(right === 'in' ? 'slip.question-cm' : 'slip.question-in') });
      await asks.waitFor();
      assert.equal(await slip.button('Copy the message').count(), 0, 'nothing is sent before the answer');
      await slip.press(words(button));
      assert.deepEqual(answer_in(await slip.message()), { token: 'AQIDBAUG', unit: right, readings, note: '' });
      assert.equal(await slip.page.locator('.said').count(), 0);
      assert.ok(await asks.isHidden());
    }
    // Whoever says that it is so may send it so.
    const slip = await Slip.open(visitor, { asked: Object.keys(inches), token: 'BBBBBBBB' });
    await slip.measure(inches, 'Centimetres');
    await slip.press(words('slip.were-centimetres'));
    assert.equal(answer_in(await slip.message()).unit, 'cm');
    await slip.press('Change chest girth');
    await slip.field(1).fill('26.75');
    await slip.next();
    await slip.next();
    await slip.page.getByRole('alert').filter({ hasText: words('slip.question-cm') }).waitFor();
  },

  'lengths in another unit than the weight are asked about too': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['chest', 'weight'] });
    await slip.measure({ chest: ['67', '67'], weight: ['45', '45'] });
    await slip.press(words('slip.were-centimetres'));
    assert.deepEqual(answer_in(await slip.message()), { token: 'AQIDBAUG', unit: 'cm', readings: { chest: ['67', '67'], weight: ['45 lb', '45 lb'] }, note: '' });
  },

  'a dog that nobody weighed is told its weight by the chest, so that a wrong unit is seen': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck', 'chest'] });
    await slip.measure({ neck: ['16.75', '16.75'], chest: ['26.5', '26.5'] }, 'Centimetres');
    await slip.page.getByText(words('slip.weighs-cm', '1.45 kg')).waitFor();
    assert.ok((await slip.message()).length > 0, 'a small dog is no fault');
  },

  'a link that is far too long is refused in words, and nothing is written beside its room': async (visitor) => {
    for (const size of [65536, 65600, 100000, 131072, 1 << 20]) {
      const page = await visitor.open(devices.phone, `slip.html#${request()}${'A'.repeat(size)}`);
      await page.getByRole('status').filter({ hasText: 'The text is longer than the 65536 bytes' }).waitFor();
    }
    // The program itself, asked for more than it has.
    const slip = await Slip.open(visitor, { asked: ['neck'] });
    const rooms = await slip.page.evaluate(() => [0, 65536, 65537, 131072, 0x7fffffff, -1].map((size) => program.slip_input(size) > 0));
    assert.deepEqual(rooms, [true, true, false, false, false, false]);
    assert.match((await slip.page.evaluate(() => call('slip_look', 'x'.repeat(70000))))[0][1], /^The text is longer than the 65536 bytes/);
    await slip.measure({ neck: ['16', '16'] });
    assert.deepEqual(answer_in(await slip.message()).readings, { neck: ['16', '16'] });
  },

  'what was typed is there again after the page was closed': async (visitor) => {
    const slip = await Slip.open(visitor);
    await slip.begin();
    await slip.type('22 1/2', '22 5/8');
    await slip.next();
    await slip.type('16 3/4');
    const context = slip.page.context();
    const address = slip.page.url();
    await slip.page.close();
    const again = new Slip(await context.newPage());
    await again.page.goto(address);
    assert.equal(await again.heading(), name_of('neck'));
    assert.equal(await again.field(1).inputValue(), '16 3/4');
    await again.press('Back');
    assert.deepEqual([await again.field(1).inputValue(), await again.field(2).inputValue()], ['22 1/2', '22 5/8']);
    // Another slip in the same browser is another dog's.
    const other = new Slip(await context.newPage());
    await other.page.goto(`${visitor.url}slip.html#${request({ dog: 'Halyard', token: 'BBBBBBBB' })}`);
    assert.equal(await other.heading(), words('slip.asks-for', 'The Sail Loft', 'Halyard'));
    await other.begin();
    assert.equal(await other.field(1).inputValue(), '');
  },

  'two tabs with one slip do not overwrite each other': async (visitor) => {
    const slip = await Slip.open(visitor);
    await slip.begin();
    await slip.type('22 1/2');
    const other = new Slip(await slip.page.context().newPage());
    await other.page.goto(slip.page.url());
    await other.field(1).waitFor();
    await slip.field(2).fill('22 5/8');
    await until(async () => await other.field(2).inputValue() === '22 5/8');
    await other.next();
    await other.type('16 3/4');
    await slip.next();
    assert.equal(await slip.field(1).inputValue(), '16 3/4');
    await slip.press('Back');
    assert.deepEqual([await slip.field(1).inputValue(), await slip.field(2).inputValue()], ['22 1/2', '22 5/8']);
  },

  'readings can be deleted from the browser': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck'] });
    await slip.measure({ neck: ['16', '16'] });
    await slip.press('Delete these readings from this browser');
    await slip.page.getByText(words('slip.deleted')).waitFor();
    assert.deepEqual(await slip.page.evaluate(() => Object.keys(localStorage)), []);
  },

  'a browser that keeps nothing says so, and the work goes on': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck', 'chest'] }, { before: () => {
      Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError'); } });
    } });
    await slip.page.getByText(words('slip.not-kept')).waitFor();
    await slip.measure({ neck: ['16 3/4', '16 3/4'], chest: ['26', '26'] });
    assert.deepEqual(answer_in(await slip.message()).readings, { neck: ['16 3/4', '16 3/4'], chest: ['26', '26'] });
  },

  'what is kept and damaged by another hand does no harm': async (visitor) => {
    for (const kept of ['', '{', '7', 'null', '{"form":1}', '{"form":1,"unit":"ell","at":99,"note":7,"readings":{"neck":"16"}}',
      '{"form":2,"at":0}', '{"form":1,"at":0.5,"readings":{"neck":[1,2]}}', '{"form":1,"readings":{"neck":["16","17","18","19","20","21"]}}']) {
      const page = await visitor.new_page(devices.phone);
      page.on('pageerror', (error) => visitor.faults.push(`${kept}: ${error.message}`));
      await page.addInitScript((text) => localStorage.setItem('coatwright-slip-AQIDBAUG', text), kept);
      await page.goto(`${visitor.url}slip.html#${request({ asked: ['neck'] })}`);
      const slip = new Slip(page);
      await slip.begin();
      assert.equal(await slip.field(1).inputValue(), '', kept);
    }
  },

  'the page works without a network once it was opened': async (visitor, site) => {
    const server = await serve(site);
    const page = await visitor.new_page(devices.phone);
    const address = `${server.url}slip.html#${request({ asked: ['neck', 'chest'] })}`;
    await page.goto(address);
    await page.waitForFunction(() => document.documentElement.dataset.ready === 'yes');
    server.stop();
    await page.context().setOffline(true);
    await page.goto('about:blank');
    await assert.rejects(fetch(server.url));
    await page.goto(address);
    const slip = new Slip(page);
    await slip.measure({ neck: ['16 3/4', '16 3/4'], chest: ['26', '26'] });
    assert.deepEqual(answer_in(await slip.message()).readings, { neck: ['16 3/4', '16 3/4'], chest: ['26', '26'] });
    // Another dog's link too.
    await page.goto(`${server.url}slip.html#${request({ dog: 'Halyard', token: 'CCCCCCCC' })}`);
    await page.getByRole('heading', { name: words('slip.asks-for', 'The Sail Loft', 'Halyard') }).waitFor();
  },

  'a newer page is used as soon as there is a network': async (visitor, site) => {
    const folder = mkdtempSync(join(tmpdir(), 'coatwright-'));
    for (const file of readdirSync(site).filter((name) => name.startsWith('slip'))) cpSync(join(site, file), join(folder, file));
    const server = await serve(folder);
    const page = await visitor.new_page(devices.phone);
    const address = `${server.url}slip.html#${request()}`;
    const ready = () => page.waitForFunction(() => document.documentElement.dataset.ready === 'yes');
    await page.goto(address);
    await ready();
    // The site's next version: every file is another.
    const page_file = join(folder, 'slip.html'), worker = join(folder, 'slip_worker.js'), script = join(folder, 'slip.js');
    const [old_name] = readFileSync(page_file, 'utf8').match(/slip\.js\?\w+/);
    writeFileSync(script, `${readFileSync(script, 'utf8')}\ndocument.documentElement.dataset.version = 'two';\n`);
    writeFileSync(page_file, readFileSync(page_file, 'utf8').replace(old_name, 'slip.js?two').replace('<title>', '<title>Two: '));
    writeFileSync(worker, readFileSync(worker, 'utf8').replace(old_name, 'slip.js?two').replace(/coatwright-slip-\w+/, 'coatwright-slip-two'));
    await page.reload();
    await ready();
    assert.equal(await page.evaluate(() => document.documentElement.dataset.version), 'two');
    await until(async () => await page.evaluate(async () => (await caches.keys()).join()) === 'coatwright-slip-two');
    server.stop();
    await page.context().setOffline(true);
    await page.goto('about:blank');
    await page.goto(address);
    await page.waitForFunction(() => document.documentElement.dataset.version === 'two');
    rmSync(folder, { recursive: true });
  },

  'names and notes from a link are shown as text and as nothing else': async (visitor) => {
    const dog = '<img src=x onerror=alert(1)>', studio = '"><script>alert(2)</script>', note = '<b>&amp; {0} </b>\n<a href="javascript:alert(3)">x</a>';
    const slip = await Slip.open(visitor, { asked: ['neck'], dog, studio, note });
    const dialogs = [];
    slip.page.on('dialog', (dialog) => { dialogs.push(dialog.message()); dialog.dismiss(); });
    assert.equal(await slip.heading(), words('slip.asks-for', studio, dog));
    assert.equal(await slip.page.title(), words('slip.title', dog));
    assert.equal(await slip.page.locator('#note-text').textContent(), note);
    await slip.measure({ neck: ['16', '16'] });
    await slip.page.getByLabel('A note to the studio').fill('</textarea><script>alert(4)</script>\u0007');
    assert.equal(answer_in(await slip.message()).note, '</textarea><script>alert(4)</script> ');
    assert.ok((await slip.message()).startsWith(`Readings for ${dog}\n`));
    await slip.press('Back to the measures');
    await slip.type('<b>16</b>');
    await slip.told('“<” in neck girth is not part of a number');
    assert.equal(await slip.page.locator('main img, main script, main b img, #note-text *, #who *, #notes b').count(), 0);
    assert.deepEqual(dialogs, []);
  },

  'a link that is not whole says what to do': async (visitor) => {
    const whole = request();
    const later = request({ version: 3 });
    for (const [link, key] of [['', 'slip.unread'], ['#hello', 'slip-not-found'], [`#${whole.slice(0, 40)}`, 'slip-cut'],
      [`#${whole.slice(0, 30)}${whole[30] === 'A' ? 'B' : 'A'}${whole.slice(31)}`, 'slip-damaged'], [`#${later}`, 'slip-from-future'],
      ['#cwSLgQAiAQIDBAUGAAIiobLgD1fV4B9xIMXgP9EV4K4A_wVNw7xkZXoKlkkz', 'slip-is-answer']]) {
      const page = await visitor.open(devices.phone, `slip.html${link}`);
      const said = await page.getByRole('status').first().textContent();
      const pattern = words(key).replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/\\\{\d(\\\|\w+)*\\\}/g, '\\w+');
      assert.match(said, new RegExp(`^${pattern}$`), key);
      assert.equal(await page.getByRole('button').count(), 0);
    }
    for (const link of [`#${whole}.`, `#${whole.replace(/-/g, '%2D').replace(/_/g, '%5F')}`, `#${whole.slice(0, 50)}%0A${whole.slice(50)})`]) {
      const slip = new Slip(await visitor.open(devices.phone, `slip.html${link}`));
      assert.equal(await slip.heading(), words('slip.asks-for', 'The Sail Loft', 'Bosun'), link);
    }
  },

  'what is odd is said beside the number, in the words of the studio': async (visitor) => {
    const slip = await Slip.open(visitor);
    await slip.begin();
    await slip.type('22 1/2');
    await slip.told(words('slip.once'));
    await slip.field(2).fill('22 9/8');
    await slip.told('is one or more: put a space behind the whole number');
    await slip.field(2).fill('27');
    await slip.told('The readings of back length lie 4½ in apart');
    await slip.field(2).fill('220');
    await slip.told('Back length reads 220 in, and no dog is outside');
    await slip.field(2).fill('22 5/8');
    await slip.told(words('slip.good', '22\u00a09⁄16 in'));
    await slip.next();
    await slip.type('24 1/2', '24 1/2');
    await slip.next();
    await slip.type('26 3/8', '26 3/8');
    await slip.told('Neck girth reads 24½');
    for (let n = 3; n < 9; n += 1) await slip.next();
    await slip.page.getByRole('listitem').filter({ hasText: 'Neck girth' }).getByText('is the likeliest mistake').waitFor();
    await slip.press('Change neck girth');
    await slip.type('16 3/4', '16 3/4');
    await slip.told('Nothing odd about it.');
  },

  'the build that the studio gave decides what is odd': async (visitor) => {
    const odd = {};
    for (const build of [0, 3]) {
      const slip = await Slip.open(visitor, { asked: ['back', 'chest', 'withers-height'], build });
      // As long as high: nothing odd, but for a dog that is said to be long and low.
      await slip.measure({ back: ['28', '28'], chest: ['27', '27'], 'withers-height': ['26', '26'] });
      odd[build] = await slip.page.locator('.said').count();
    }
    assert.equal(odd[0], 0);
    assert.ok(odd[3] > 0);
  },

  'no line breaks between a whole and its fraction, or between a number and its unit': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck', 'chest'] }, { device: { ...devices.phone, viewport: { width: 320, height: 640 } } });
    const breaks = /[\d¼½¾⅛⅜⅝⅞] (in|cm|lb|kg)\b|\d \d+[⁄/]\d/;
    await slip.begin();
    await slip.type('24 1/2', '24 5/8');
    await slip.next();
    await slip.type('26 3/8', '26 1/4');
    await slip.told('Neck girth reads 24');
    assert.doesNotMatch(await slip.page.locator('#notes').textContent(), breaks);
    await slip.next();
    const list = await slip.page.locator('#list').textContent();
    assert.match(list, /24\u00a01\/2\u00a0in; 24\u00a05\/8\u00a0in/);
    assert.doesNotMatch(list, breaks);
    assert.doesNotMatch(await slip.page.locator('#weighs').textContent(), breaks);
  },

  'another unit leaves what was typed its meaning': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck', 'weight'] });
    await slip.begin();
    await slip.type('16 3/4');
    await slip.page.getByRole('radio', { name: 'centimetres' }).check();
    assert.equal(await slip.field(1).inputValue(), '16 3/4 in');
    assert.equal(await slip.button(words('slip.whole')).count(), 0);
    await slip.field(2).fill('42,5');
    await slip.told(words('slip.good', '42.5 cm'));
    await slip.next();
    await slip.type('20,4');
    await slip.page.getByRole('radio', { name: 'inches' }).check();
    await slip.next();
    assert.deepEqual(answer_in(await slip.message()), { token: 'AQIDBAUG', unit: 'in', readings: { neck: ['16 3/4 in', '42,5 cm'], weight: ['20,4 kg'] }, note: '' });
  },

  'five readings are the most, and nothing measured is nothing to send': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck'] });
    await slip.begin();
    await slip.next();
    await slip.page.getByRole('alert').filter({ hasText: words('slip-nothing-read') }).waitFor();
    assert.equal(await slip.button('Copy the message').count(), 0);
    await slip.press('Measure neck girth');
    await slip.type('  ');
    await slip.next();
    await slip.page.getByRole('alert').filter({ hasText: words('slip-nothing-read') }).waitFor();
    await slip.press('Measure neck girth');
    await slip.type('16', '16 1/8', '16 1/4', '16', '16 1/8');
    assert.equal(await slip.button('Another reading').count(), 0);
    await slip.next();
    assert.deepEqual(answer_in(await slip.message()).readings.neck, ['16', '16 1/8', '16 1/4', '16', '16 1/8']);
  },

  'a reading that is no number keeps the message back and says where': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck', 'chest'] });
    await slip.measure({ neck: ['16', '16 9/8'], chest: ['26', '260'] });
    await slip.page.getByRole('alert').filter({ hasText: 'The fraction 9/8 in neck girth is one or more' }).filter({ hasText: words('slip.waits') }).waitFor();
    assert.equal(await slip.button('Copy the message').count(), 0);
    await slip.press('Change neck girth');
    await slip.field(2).fill('16 7/8');
    await slip.next();
    // An odd number is the client's to send, and the studio's to judge.
    await slip.next();
    await slip.page.locator('#list').getByText('Chest girth reads 260 in, and no dog is outside').waitFor();
    assert.deepEqual(answer_in(await slip.message()).readings, { neck: ['16', '16 7/8'], chest: ['26', '260'] });
  },

  'the message goes to the share sheet, the clipboard, or a telephone': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck'], back: '+49 40 123456' }, { before: () => {
      window.handed = [];
      navigator.share = async (what) => { window.handed.push(what.text); };
      navigator.clipboard.writeText = async (text) => { window.handed.push(text); };
    } });
    await slip.measure({ neck: ['16', '16'] });
    const message = await slip.message();
    await slip.press('Share…');
    await slip.told(words('slip.shared'));
    await slip.press('Copy the message');
    await slip.told(words('slip.copied'));
    assert.deepEqual(await slip.page.evaluate(() => window.handed), [message, message]);
    assert.equal(await slip.page.getByRole('link', { name: 'Send by email' }).count(), 0);
    assert.equal(await slip.page.getByRole('link', { name: 'Send as a text message' }).getAttribute('href'),
      `sms:+4940123456?&body=${encodeURIComponent(message)}`);
  },

  'a QR code of the readings is read by zbar from the screen': async (visitor) => {
    for (const device of [real_devices.phone, real_devices.tablet, { ...devices.laptop, deviceScaleFactor: 1.5, drawn: true }, drawn(devices.phone)]) {
      const slip = await Slip.open(visitor, { asked: Object.keys(bosun) }, { device });
      await slip.measure(bosun);
      await slip.press('Show a QR code');
      const code = slip.page.getByRole('img', { name: words('slip.qr') });
      const link = (await slip.message()).split('\n').at(-1);
      assert.equal(read_qr(await slip.page.screenshot()), link);
      // Four light modules all round, and whole pixels to a module.
      const { width, modules } = await code.evaluate((svg) => ({ width: svg.getBoundingClientRect().width, modules: svg.viewBox.baseVal.width }));
      const pixels = width * device.deviceScaleFactor / modules;
      assert.ok(Math.abs(pixels - Math.round(pixels)) < 1e-3 && pixels >= 2, `${pixels} pixels a module`);
      assert.equal((modules - 8 - 17) % 4, 0);
      await slip.press('Show a QR code');
      assert.equal(await code.count(), 0);
    }
  },

  'a visit asks the network for nothing once the page is there, and breaks no rule of its policy': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: Object.keys(bosun), note: 'x' }, { before: () => {
      window.broken_rules = [];
      document.addEventListener('securitypolicyviolation', (event) => window.broken_rules.push(`${event.violatedDirective} ${event.blockedURI}`));
    } });
    const asked = [];
    slip.page.context().on('request', (r) => { if (!/^(data|blob):/.test(r.url())) asked.push(r.url()); });
    await slip.measure(bosun);
    await slip.press('Copy the message');
    await slip.press('Show a QR code');
    await slip.press('Back to the measures');
    await slip.page.getByRole('radio', { name: 'centimetres' }).check();
    await slip.page.goBack();
    assert.deepEqual(asked, []);
    assert.deepEqual(await slip.page.evaluate(() => window.broken_rules), []);
  },

  'the slip and its program are sent in at most 100 kB': async (_, site) => {
    let total = 0;
    for (const file of readdirSync(site).filter((name) => name.startsWith('slip'))) {
      const bytes = gzipSync(readFileSync(join(site, file)), { level: 6 }).length;
      console.log(`  ${file} ${bytes} bytes`);
      total += bytes;
    }
    console.log(`  together ${total} bytes`);
    assert.ok(total > 10e3 && total <= kTransferLimit, `${total} bytes`);
  },

  'the page is seen before any other file has come': async (visitor) => {
    const page = await visitor.new_page(devices.phone);
    let held = 0;
    await page.route(/slip\.(js|wasm)/, () => { held += 1; });
    await page.goto(`${visitor.url}slip.html#${request()}`, { waitUntil: 'commit' });
    await page.getByText('Opening the slip…').waitFor();
    await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint').length > 0);
    assert.equal(await page.locator('header').evaluate((header) => getComputedStyle(header).backgroundColor), 'rgb(242, 193, 78)');
    assert.ok(held > 0);
  },

  'a program that cannot be loaded is told in words': async (visitor) => {
    const page = await visitor.new_page(devices.phone);
    await page.route(/slip\.wasm/, (route) => route.abort());
    await page.goto(`${visitor.url}slip.html#${request()}`);
    await page.getByText('The slip could not be loaded').waitFor();
  },

  'the whole slip can be filled in with the keyboard': async (visitor) => {
    const slip = await Slip.open(visitor, { asked: ['neck', 'chest'] }, { device: devices.laptop });
    const { keyboard } = slip.page;
    const tab_to = async (name) => {
      for (let n = 0; n < 40; n += 1) {
        const here = await slip.page.evaluate(() => document.activeElement.labels?.[0]?.textContent || document.activeElement.textContent);
        if (here.startsWith(name)) return;
        await keyboard.press('Tab');
      }
      assert.fail(`${name} is not reached`);
    };
    await tab_to('Inches');
    await keyboard.press('Enter');
    await tab_to('first time');
    await keyboard.type('16 3/4');
    await keyboard.press('Enter');
    await keyboard.type('16 1/2');
    await keyboard.press('Enter');
    assert.equal(await slip.heading(), name_of('chest'));
    await tab_to('first time');
    await keyboard.type('26');
    await tab_to('Look over');
    await keyboard.press('Space');
    assert.deepEqual(answer_in(await slip.message()).readings, { neck: ['16 3/4', '16 1/2'], chest: ['26'] });
  },

  'nothing is too small to touch or too wide to see, also at twice the size': async (visitor) => {
    for (const width of [390, 320, 195]) {
      const slip = await Slip.open(visitor, { note: 'Donaudampfschifffahrtsgesellschaftskapitänskajüte', dog: 'W'.repeat(60), studio: 'Mm'.repeat(30), back: `${'long'.repeat(15)}@harbour.example` },
        { device: { ...devices.phone, viewport: { width, height: 844 } } });
      const look = async (where) => {
        const wide = await slip.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${width}: ${where} is ${wide} too wide`);
        assert.deepEqual(await slip.page.evaluate(small_targets, kTarget), [], `${width}: ${where}`);
      };
      await look('start');
      await slip.begin();
      await slip.type('22 1/2', '22 5/8');
      await look('measure');
      for (let n = 0; n < 8; n += 1) await slip.next();
      await slip.press('Show a QR code');
      await look('send');
    }
  },

  'axe finds nothing to mend on any screen': async (visitor) => {
    const axe = execFileSync('sh', [join(root, 'web/fetch.sh'), 'axe-core'], { encoding: 'utf8' }).trim();
    const source = readFileSync(join(axe, 'axe.min.js'), 'utf8');
    const slip = await Slip.open(visitor, { note: 'Twice, please.', back: 'deck@harbour.example' });
    const look = async (where) => {
      // Evaluated by the test, not loaded by the page, whose policy stays as it is.
      await slip.page.evaluate(source);
      const { violations, passes } = await slip.page.evaluate(() => window.axe.run(document, { resultTypes: ['violations', 'passes'] }));
      assert.deepEqual(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' | ')}`), [], where);
      assert.ok(passes.length > 15, `${where}: ${passes.length} rules looked`);
    };
    await look('start');
    await slip.begin();
    await slip.type('22 1/2', '30');
    await slip.told('lie 7½ in apart');
    await look('measure, with a check');
    await slip.field(2).fill('22 1/2');
    await slip.told('Nothing odd');
    await look('measure, all well');
    for (let n = 0; n < 8; n += 1) await slip.next();
    await slip.press('Show a QR code');
    await look('send');
  },
};
