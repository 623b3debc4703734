// Ticket files from anywhere, and names with anything in them.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { escaped, until } from './studio.mjs';
import { ticket } from './tickets.mjs';

const kMarkup = '<img src=x onerror=alert(1)>&"\'</text>';

export default {
  'a ticket that was saved opens again just as it was': async (visitor) => {
    const studio = await visitor.studio();
    const wanted = ticket({ dog: 'Käpt’n Ölzeug', unit: 'cm', readings: { chest: ['69,5 cm', '27⅜ in'] }, choices: { 'hem-depth': 12 } });
    await studio.open_ticket(wanted);
    assert.deepEqual(await studio.saved_ticket(), wanted);
    const { name } = await studio.save('Ticket file');
    assert.equal(name, 'käpt-n-Ölzeug-ticket.json');
  },

  'a hostile ticket file is refused in a sentence and changes nothing': async (visitor) => {
    const studio = await visitor.studio();
    const before = (await studio.save('Ticket file')).bytes.toString();
    const files = {
      'not JSON': [Buffer.from('hello'), /stops making sense at byte/],
      'empty': [Buffer.alloc(0), /not a ticket|stops making sense/],
      'bytes of another kind': [Buffer.from(Array.from({ length: 4000 }, (_, i) => (i * 7919) % 256)), /stops making sense|not a ticket|cannot be shown/],
      'far too large': [Buffer.alloc(3 << 20, ' '), /not a ticket/],
      'nested deep': [Buffer.from('['.repeat(60000)), /nested too deep|not a ticket|stops making sense/],
      'another program’s': [Buffer.from('{"pattern": 3}'), /not a Coatwright ticket|does not belong/],
      'from the future': [Buffer.from(JSON.stringify({ ...ticket(), coatwright: 99 })), /version 99/],
      'unknown field': [Buffer.from(JSON.stringify({ ...ticket(), script: 'x' })), /script/],
      'wrong type': [Buffer.from(JSON.stringify({ ...ticket(), dog: { toString: 1 } })), /must be a text/],
      'control characters': [Buffer.from(JSON.stringify({ ...ticket(), dog: 'a\u0000b\u001b' })), /cannot be shown/],
      'endless name': [Buffer.from(JSON.stringify({ ...ticket(), dog: 'x'.repeat(5000) })), /5000 characters/],
    };
    for (const [what, [bytes, sentence]] of Object.entries(files)) {
      await studio.open_ticket(bytes);
      await until(async () => assert.ok((await studio.statuses()).some((text) => sentence.test(text)), `${what}: ${await studio.statuses()}`));
      await studio.press('button', 'Put away');
      await until(async () => !(await studio.statuses()).some((text) => sentence.test(text)));
    }
    assert.equal((await studio.save('Ticket file')).bytes.toString(), before);
    assert.equal(await studio.control('button', 'Undo').isDisabled(), true);
  },

  'a name with markup in it is text wherever it stands': async (visitor) => {
    const studio = await visitor.studio(devices.laptop, () => { window.print = () => {}; });
    const { page } = studio;
    page.on('dialog', (dialog) => { visitor.faults.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
    await studio.open_ticket(ticket({ dog: kMarkup, name: kMarkup }));
    assert.ok(await studio.has('button', new RegExp(`^Ticket: ${escaped(kMarkup)}`)));
    for (const station of ['Measure', 'Draft', 'Print']) {
      await studio.station(station);
      await studio.rest();
    }
    await studio.print_part('On paper here');
    await studio.press('button', 'Print');
    await until(() => page.evaluate(() => document.getElementById('print').textContent.includes('onerror=alert(1)')));
    assert.equal(await page.evaluate(() => document.querySelectorAll('img, #print script, #print [onerror]').length), 0);
    for (const file of ['Sheets, SVG', 'Pattern, SVG']) {
      const svg = (await studio.save(file)).bytes.toString();
      const found = await page.evaluate((text) => {
        const tree = new DOMParser().parseFromString(text, 'image/svg+xml');
        return { broken: tree.querySelector('parsererror')?.textContent, text: tree.documentElement.textContent,
          strange: [...tree.querySelectorAll('*')].filter((e) => /^(img|script|foreignObject)$/i.test(e.localName) || e.hasAttribute('onerror')).length };
      }, svg);
      assert.deepEqual([found.broken, found.strange], [undefined, 0], file);
      assert.ok(found.text.includes('<img src=x onerror=alert(1)>&"\''), file);
    }
    const saved = await studio.save('Ticket file');
    assert.match(saved.name, /^[a-z0-9-]+\.json$/);
    assert.equal(JSON.parse(saved.bytes.toString()).dog, kMarkup);
  },

  'names of cloths with markup in them are text where the coat is laid and quoted': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const { page } = studio;
    page.on('dialog', (dialog) => { visitor.faults.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
    const cloths = [{ use: 'shell', name: kMarkup, width: 1400, price: 20 }];
    await studio.open_ticket(ticket({ dog: kMarkup, name: kMarkup, cloths }));
    await studio.station('Lay');
    await until(async () => (await studio.statuses()).includes('Laid'), 30000);
    for (const tab of ['To buy', 'Quote', 'Cloth']) {
      await studio.press('radio', tab);
      await studio.rest();
    }
    assert.equal(await page.evaluate(() => document.querySelectorAll('img, [onerror]').length), 0);
    await studio.press('radio', 'To buy');
    await page.evaluate(() => { window.print = () => { window.printed = true; }; });
    await until(() => studio.control('button', 'Print diagram and list').isEnabled());
    await studio.press('button', 'Print diagram and list');
    await page.waitForFunction(() => window.printed);
    const lay = await page.evaluate(() => {
      const tree = document.getElementById('print');
      return { text: tree.textContent, strange: tree.querySelectorAll('img, script, iframe, [onerror]').length };
    });
    assert.equal(lay.strange, 0);
    assert.ok(lay.text.includes(kMarkup), 'the lay’s page');
  },

  'the picture is a PNG with the pattern on it': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const { bytes, name } = await studio.save('Picture, PNG');
    assert.match(name, /\.png$/);
    assert.equal(bytes.subarray(1, 4).toString(), 'PNG');
    const seen = await studio.page.evaluate(async (data) => {
      const image = new Image();
      image.src = `data:image/png;base64,${data}`;
      await image.decode();
      return [image.width, image.height];
    }, bytes.toString('base64'));
    assert.ok(Math.min(...seen) > 500, `${seen}`);
  },
};
