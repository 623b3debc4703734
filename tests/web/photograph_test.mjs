// Photographs of fittings: chosen, made small, pinned, kept, undone, saved and put back; and files that are none.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { reloaded } from './keeping.mjs';
import { choose, kept_photographs, kSecret, open_fitting, picture, png_head, put_photographs, with_exif } from './photographs.mjs';
import { shot } from './pixels.mjs';
import { devices, drawn, small_devices } from './studio_page.mjs';
import { Fingers, Studio, until } from './studio.mjs';
import { backup_file, busy_rack, ticket } from './tickets.mjs';

const kNotes = [
  { place: 'neck', kind: 'loose', by: 'gap', found: 7 },
  { place: 'girth', kind: 'tight', by: 'gap', found: 9 },
];
const fitted = (changes = {}) => ticket({ fittings: [{ notes: kNotes }], ...changes });

// The cards that are kept, as JSON.
const cards = (page) => page.evaluate(async () => {
  await window.coatwright.stored();
  return new Promise((resolve, reject) => {
    const open = indexedDB.open('coatwright');
    open.onerror = () => reject(open.error);
    open.onsuccess = () => {
      const all = open.result.transaction('cards').objectStore('cards').getAll();
      all.onsuccess = () => { open.result.close(); resolve(all.result.map((card) => JSON.parse(card))); };
    };
  });
});
const photographs_of = async (studio, dog) => (await cards(studio.page)).find((card) => card.ticket.dog === dog).ticket.fittings[0].photographs ?? [];

// What a JPEG file shows: its sides, and the colour in the middle of each quarter.
const looked_at = (page, base64) => page.evaluate(async (data) => {
  const image = new Image();
  image.src = `data:image/jpeg;base64,${data}`;
  await image.decode();
  const canvas = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height });
  const pen = canvas.getContext('2d');
  pen.drawImage(image, 0, 0);
  const quarter = (x, y) => [...pen.getImageData(image.width * x, image.height * y, 1, 1).data.slice(0, 3)];
  return { sides: [image.width, image.height], quarters: [quarter(0.25, 0.25), quarter(0.75, 0.25), quarter(0.25, 0.75), quarter(0.75, 0.75)] };
}, base64);
const near = (colour, wanted) => colour.every((part, i) => Math.abs(part - wanted[i]) < 24);
const kRed = [208, 32, 32], kGreen = [32, 160, 32], kBlue = [32, 64, 208], kWhite = [255, 255, 255];
function shows(quarters, wanted) {
  quarters.forEach((colour, i) => assert.ok(near(colour, wanted[i]), `quarter ${i}: ${colour}, wanted ${wanted[i]}`));
}

async function shown(studio) {
  await until(async () => !(await studio.statuses()).some((text) => /being read|made small/.test(text)));
  await studio.rest();
}
const backup = async (studio) => {
  const download = studio.page.waitForEvent('download');
  await studio.press('button', 'Save a backup');
  return readFileSync(await (await download).path());
};
const open_rack = async (studio) => {
  await studio.press('button', /^Ticket: /);
  await until(() => studio.has('heading', 'The rack'));
};

export default {
  'a photograph is made small and upright, keeps nothing of its file, and is pinned, kept and undone': async (visitor) => {
    const studio = await visitor.studio(drawn(devices.tablet), () => {
      Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { window.copied = text; } } });
    });
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    await open_fitting(studio);
    const file = with_exif(await picture(studio.page, { width: 3000, height: 2000 }));
    assert.ok(file.includes(kSecret) && file.includes('Exif'));
    await choose(studio, file);
    await until(() => studio.has('button', 'Photograph 1'));
    const [row] = await kept_photographs(studio.page);
    const bytes = Buffer.from(row.bytes, 'base64');
    assert.ok(bytes.length < 200e3, `${bytes.length} bytes`);
    for (const trace of ['Exif', kSecret, 'GPS', 'http']) assert.ok(!bytes.includes(trace), trace);
    const seen = await looked_at(studio.page, row.bytes);
    assert.deepEqual(seen.sides, [853, 1280], 'upright');
    shows(seen.quarters, [kBlue, kRed, kWhite, kGreen]);  // turned by 90 degrees to the right
    const card = await photographs_of(studio, 'Gaff');
    assert.deepEqual(card, [{ id: row.id, width: 853, height: 1280 }]);

    await studio.press('button', 'Photograph 1');
    await shown(studio);
    const board = await studio.page.evaluate(async (png) => {
      const { data, width } = await pixels_of(png);
      const counts = { red: 0, blue: 0 };
      for (let i = 0; i < data.length; i += 4) {
        if (i / 4 % width > 700) continue;
        if (data[i] > 180 && data[i + 1] < 60 && data[i + 2] < 60) counts.red += 1;
        if (data[i + 2] > 180 && data[i] < 60) counts.blue += 1;
      }
      return counts;
    }, await shot(studio.page));
    assert.ok(Math.min(board.red, board.blue) > 20000, `it is drawn on the board: ${JSON.stringify(board)}`);

    await studio.press('button', /^Pin 2, Chest/);
    await until(async () => assert.deepEqual((await photographs_of(studio, 'Gaff'))[0].pins, [{ note: 1, x: 0.5, y: 0.5 }]));
    await studio.rest();
    const pin = await studio.box('button', /^Pin 2, .*across/);
    const fingers = await Fingers.on(studio.page);
    const head = { x: pin.x + pin.width / 2, y: pin.y + pin.height / 2 };
    await fingers.put(head);
    await fingers.move([{ x: head.x + 60, y: head.y - 90 }]);
    await fingers.lift();
    await studio.rest();
    const [{ x, y }] = (await photographs_of(studio, 'Gaff'))[0].pins;
    assert.ok(x > 0.55 && x < 0.95 && y < 0.45 && y > 0.05, `${x}, ${y}`);
    assert.ok(Math.abs((x - 0.5) * 853 / 60 - (0.5 - y) * 1280 / 90) < 0.1, 'as far as the finger went, both ways');
    await studio.tap('button', /^Pin 1, Neck/);
    await studio.rest();
    await fingers.tap({ x: head.x - 40, y: head.y });
    await until(async () => assert.equal((await photographs_of(studio, 'Gaff'))[0].pins.length, 2));
    const pinned = (await photographs_of(studio, 'Gaff'))[0].pins;
    assert.match(await studio.page.locator('#mirror [data-id="board"]').getAttribute('aria-label'), /^Photograph 1\. Pins: 2 Chest: tight.*; 1 Neck: loose/);

    await reloaded(studio);
    await open_fitting(studio);
    await studio.press('button', 'Photograph 1');
    await shown(studio);
    assert.deepEqual((await photographs_of(studio, 'Gaff'))[0].pins, pinned);
    await studio.press('button', 'Take back: Photograph 1');
    await until(async () => assert.deepEqual(await photographs_of(studio, 'Gaff'), []));
    assert.equal((await kept_photographs(studio.page)).length, 1, 'undo needs it');
    await reloaded(studio);
    await studio.press('button', 'Undo');
    await until(async () => assert.equal((await photographs_of(studio, 'Gaff'))[0].pins.length, 2));
    await open_fitting(studio);
    await studio.press('button', 'Photograph 1');
    await shown(studio);
    assert.ok(!(await studio.statuses()).some((text) => /not in this rack/.test(text)));

    // Neither a link nor a file has it.
    assert.equal((await studio.saved_ticket()).fittings[0].photographs, undefined);
    await studio.sees('Photographs stay in this rack');
    await studio.press('button', 'Ticket as a link');
    await until(() => studio.page.evaluate(() => window.copied));
    const link = await studio.page.evaluate(() => window.copied);
    const code = link.split('#')[1];
    const read = [0, 1, 2, 3].map((skip) => Buffer.from(code.slice(skip), 'base64url').toString('latin1'));
    assert.ok(read.some((text) => text.includes('"Gaff"')), 'what the link says can be read here');
    assert.ok(!link.includes(row.id) && !read.some((text) => text.includes(row.id) || text.includes('photograph')));
  },

  'what is no photograph, is damaged or too large is refused in a sentence, and changes nothing': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    const { page } = studio;
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    await open_fitting(studio);
    const jpeg = await picture(page, { width: 1600, height: 1200 }), png = await picture(page, { width: 600, height: 400, type: 'image/png' });
    const huge = join(tmpdir(), `coatwright-huge-${process.pid}.jpg`);
    writeFileSync(huge, Buffer.concat([jpeg, Buffer.alloc(50e6)]));
    const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>window.broken = 1</script><image href="x" onerror="window.broken=2"/></svg>';
    const gif = Buffer.from('R0lGODlhAQABAIAAAP///wAAACH5BAAAAAAALAAAAAABAAEAAAICRAEAOw==', 'base64');
    const long_gif = Buffer.from(gif);
    long_gif.writeUInt16LE(65535, 6);
    long_gif.writeUInt16LE(65535, 8);
    const files = {
      'a JPEG that breaks off': [jpeg.subarray(0, jpeg.length >> 1), /damaged/],
      'a JPEG that breaks off in its head': [jpeg.subarray(0, 100), /damaged/],
      'a PNG that breaks off': [png.subarray(0, png.length >> 1), /damaged/],
      'the head of a PNG of 30000 x 30000': [png_head(30000, 30000), /over 64 million pixels/],
      'the head of a PNG of 4294967295 x 1': [png_head(4294967295, 1), /over 64 million pixels/],
      'the head of a PNG without sides': [png_head(0, 0), /over 64 million pixels|damaged/],
      'a GIF that says that it is huge': [long_gif, /over 64 million pixels/],
      'a text': [Buffer.from('My dog, by the harbour.'), /no photograph/],
      'a drawing with a script': [Buffer.from(svg), /no photograph/],
      'a drawing with a script, told as one': [Buffer.from(svg), /no photograph/, 'image/svg+xml'],
      'nothing': [Buffer.alloc(0), /no photograph/],
      'one byte': [Buffer.from([0xff]), /no photograph/],
      'a program': [Buffer.concat([Buffer.from('MZ'), Buffer.alloc(4000, 0x90)]), /no photograph/],
      'zeros behind the mark of a JPEG': [Buffer.concat([Buffer.from([0xff, 0xd8]), Buffer.alloc(9000)]), /damaged/],
      'a PNG whose pixels are noise': [Buffer.concat([png.subarray(0, 60), Buffer.alloc(5000, 0x5a)]), /damaged/],
      'fifty megabytes': [huge, /40 MB/],
      'HEIC in name alone': [Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic'), Buffer.alloc(500)]), /no photograph/],
      'HEIC without a picture': [Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic'), Buffer.alloc(100), Buffer.from('ispe'), Buffer.from([0, 0, 0, 0, 0, 0, 4, 0, 0, 0, 3, 0]), Buffer.alloc(100)]), /damaged/],
    };
    for (const [what, [bytes, sentence, type]] of Object.entries(files)) {
      await choose(studio, bytes, 'dog.jpg', type);
      await until(async () => assert.ok((await studio.statuses()).some((text) => sentence.test(text)), `${what}: ${(await studio.statuses()).slice(0, 3)}`));
      await studio.press('button', 'Put away');
      await until(async () => !(await studio.statuses()).some((text) => sentence.test(text)));
    }
    assert.deepEqual(await kept_photographs(page), []);
    assert.deepEqual(await photographs_of(studio, 'Gaff'), []);
    assert.equal(await page.evaluate(() => window.broken), undefined);
    // What can be shown is taken, whatever it is called.
    await choose(studio, png, 'notes.txt', 'text/plain');
    await until(() => studio.has('button', 'Photograph 1'));
    await choose(studio, gif, 'one pixel.gif', 'image/gif');
    await until(async () => assert.equal((await photographs_of(studio, 'Gaff')).length, 2));
    assert.deepEqual((await photographs_of(studio, 'Gaff')).map(({ width, height }) => [width, height]), [[600, 400], [1, 1]]);
    for (const { bytes } of await kept_photographs(page)) assert.ok(Buffer.from(bytes, 'base64').subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff])), 'all are JPEG');
    assert.ok(!await studio.has('button', 'Choose a photograph'), 'no more than two');
  },

  'noise in every pixel is small too, and a picture of any form is taken': async (visitor) => {
    const studio = await visitor.studio(small_devices.small_phone);
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    await open_fitting(studio);
    const noise = Buffer.from(await studio.page.evaluate(() => {
      const canvas = Object.assign(document.createElement('canvas'), { width: 2400, height: 2400 });
      const pen = canvas.getContext('2d'), pixels = pen.createImageData(2400, 2400);
      for (let i = 0; i < pixels.data.length; i += 4) {
        for (let k = 0; k < 3; k += 1) pixels.data[i + k] = Math.random() * 256;
        pixels.data[i + 3] = 255;
      }
      pen.putImageData(pixels, 0, 0);
      return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
    }), 'base64');
    assert.ok(noise.length > 3e6);
    await choose(studio, noise);
    await until(() => studio.has('button', 'Photograph 1'));
    await choose(studio, await picture(studio.page, { width: 9000, height: 3, type: 'image/webp' }), 'mast.webp', 'image/webp');
    await until(() => studio.has('button', 'Photograph 2'));
    const rows = await kept_photographs(studio.page);
    for (const { bytes } of rows) assert.ok(Buffer.from(bytes, 'base64').length < 200e3);
    const sides = (await photographs_of(studio, 'Gaff')).map(({ width, height }) => [width, height]);
    assert.ok(sides[0][0] >= 640 && sides[0][0] === sides[0][1], `${sides[0]}`);
    assert.deepEqual(sides[1], [1280, 1]);
  },

  'a backup with photographs brings them to another browser, and a second time changes nothing': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    await open_fitting(studio);
    await choose(studio, await picture(studio.page, { width: 800, height: 600 }));
    await until(() => studio.has('button', 'Photograph 1'));
    await choose(studio, await picture(studio.page, { width: 600, height: 800 }));
    await until(() => studio.has('button', 'Photograph 2'));
    const mine = await kept_photographs(studio.page);
    await open_rack(studio);
    const bare = await backup(studio);
    assert.equal(JSON.parse(bare).photographs, undefined, 'without, unless it is wanted');
    await studio.press('checkbox', 'With its photographs (2)');
    await until(async () => await studio.control('checkbox', 'With its photographs (2)').getAttribute('aria-checked') === 'true');
    const whole = await backup(studio);
    assert.deepEqual(JSON.parse(whole).photographs.map(({ ticket: of, id, jpeg }) => ({ ticket: of, id, bytes: jpeg })).sort((a, b) => (a.id < b.id ? -1 : 1)),
      mine.sort((a, b) => (a.id < b.id ? -1 : 1)));
    const other = await visitor.studio(devices.tablet);
    const back = async (file, words) => {
      await open_rack(other);
      await other.put_back(file);
      await other.sees(words);
      await other.page.evaluate(() => window.coatwright.stored());
      await other.press('button', /^Ticket: /);
    };
    // Without them first: they are told as not there.
    await back(bare, /came back: 1/);
    await open_rack(other);
    await other.press('button', /^Open Gaff/);
    await open_fitting(other);
    await other.press('button', 'Photograph 1');
    await other.sees(/not in this rack, or can no longer be read\. A backup with photographs brings it back/);
    await back(whole, /Hung here already: /);
    await until(async () => assert.equal((await kept_photographs(other.page)).length, 2));
    const theirs = await kept_photographs(other.page);
    assert.deepEqual(theirs.sort((a, b) => (a.id < b.id ? -1 : 1)), mine);
    await back(whole, /Nothing has changed/);
    assert.deepEqual((await kept_photographs(other.page)).sort((a, b) => (a.id < b.id ? -1 : 1)), mine);
    // What lies here is not replaced by what a file says.
    const spoilt = JSON.parse(whole);
    spoilt.photographs.forEach((photo) => { photo.jpeg = '/9j/2Q=='; });
    const { photographs, ...head } = spoilt;
    const file = backup_file(head).toString().replace(/\]\}\n$/, `], "photographs": [\n${photographs.map((p) => JSON.stringify(p)).join(',\n')}\n]}\n`);
    await back(Buffer.from(file), /Nothing has changed/);
    assert.deepEqual((await kept_photographs(other.page)).sort((a, b) => (a.id < b.id ? -1 : 1)), mine);
    await open_rack(other);
    await other.press('button', /^Open Gaff/);
    await open_fitting(other);
    await other.press('button', 'Photograph 1');
    await shown(other);
    assert.ok(!(await other.statuses()).some((text) => /not in this rack/.test(text)));
  },

  'a thousand tickets with photographs are opened without reading one': async (visitor) => {
    const rack = busy_rack(1000);
    const rows = [];
    rack.tickets.forEach((card, i) => {
      const id = `Ph0t${String(i).padStart(4, '0')}`;
      card.ticket.fittings = [{ notes: kNotes, photographs: [{ id, width: 1280, height: 960 }] }];
      rows.push({ ticket: card.id, id, bytes: Buffer.alloc(30e3, i).toString('base64') });
    });
    const studio = await visitor.studio(devices.tablet, () => {
      window.read_from = {};
      for (const name of ['get', 'getKey', 'getAll', 'getAllKeys', 'openCursor', 'openKeyCursor', 'count']) {
        const own = IDBObjectStore.prototype[name];
        IDBObjectStore.prototype[name] = function counted(...values) {
          window.read_from[this.name] = (window.read_from[this.name] ?? 0) + 1;
          return own.apply(this, values);
        };
      }
    });
    await open_rack(studio);
    await studio.put_back(backup_file(rack));
    await until(async () => assert.ok((await studio.statuses()).some((text) => /came back: 1000/.test(text))), 60000);
    await studio.page.evaluate(() => window.coatwright.stored());
    for (let i = 0; i < rows.length; i += 250) await put_photographs(studio.page, rows.slice(i, i + 250));
    await studio.page.reload();
    await studio.ready();
    await open_rack(studio);
    const hung = rack.tickets.filter((one) => one.place === 'rack').length + 1;
    await until(() => studio.has('radio', `rack ${hung}`), 60000);
    const read = await studio.page.evaluate(() => window.read_from);
    assert.ok(read.cards > 0, 'the rack was read');
    assert.equal(read.photographs, undefined, JSON.stringify(read));
    assert.equal((await kept_photographs(studio.page)).length, 1000);
  },

  'what is deleted for good, or stood on a step that another took the place of, is let go': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    await open_fitting(studio);
    const jpeg = await picture(studio.page, { width: 400, height: 300 });
    const count = async () => {
      await studio.page.evaluate(() => window.coatwright.stored());
      return (await kept_photographs(studio.page)).length;
    };
    await choose(studio, jpeg);
    await until(() => studio.has('button', 'Photograph 1'));
    await studio.press('button', 'Undo');
    await until(async () => !await studio.has('button', 'Photograph 1'));
    assert.equal(await count(), 1, 'redo needs it');
    await choose(studio, jpeg);
    await until(() => studio.has('button', 'Photograph 1'));
    await until(async () => assert.equal(await count(), 1, 'the first one is on no step any more'));
    const [{ id }] = await photographs_of(studio, 'Gaff');
    assert.equal((await kept_photographs(studio.page))[0].id, id);
    await open_rack(studio);
    await studio.press('button', /^Delete: Gaff/);
    await studio.sees(/^Deleted: Gaff/);
    assert.equal(await count(), 1, 'out of there it comes back');
    await studio.press('radio', /^deleted 1/);
    await studio.press('button', /^Delete for good: Gaff/);
    await until(() => studio.has('button', /^Yes, for good: Gaff/));
    assert.equal(await count(), 1, 'it is asked twice');
    await studio.press('button', /^Yes, for good: Gaff/);
    await until(async () => assert.equal(await count(), 0));
  },

  'a window that follows shows what the other has taken, and takes none itself': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    const page = await studio.page.context().newPage();
    page.on('pageerror', (error) => visitor.faults.push(`uncaught: ${error.message}`));
    await page.goto(visitor.url);
    const other = new Studio(page);
    await other.ready();
    await open_fitting(studio);
    await choose(studio, await picture(studio.page, { width: 400, height: 300 }));
    await until(() => studio.has('button', 'Photograph 1'));
    await open_fitting(other);
    await until(() => other.has('button', 'Photograph 1'));
    await other.press('button', 'Photograph 1');
    await shown(other);
    assert.ok(!(await other.statuses()).some((text) => /not in this rack/.test(text)));
    await other.press('button', 'Photograph 1');
    await other.press('button', 'Choose a photograph');
    await other.sees(/Another window/);
    assert.equal((await kept_photographs(page)).length, 1);
  },

  'where there is no room for a photograph, that is said and the ticket is as it was': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function full(...values) {
        if (this.name === 'photographs') throw new DOMException('The disk is full', 'QuotaExceededError');
        return put.apply(this, values);
      };
    });
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    await open_fitting(studio);
    await choose(studio, await picture(studio.page, { width: 400, height: 300 }));
    await studio.sees(/no room for a photograph.*it was not taken/);
    assert.deepEqual(await photographs_of(studio, 'Gaff'), []);
  },

  'where the browser keeps nothing, a photograph is there as long as its window': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('denied', 'SecurityError'); } });
    });
    await studio.open_ticket(fitted({ dog: 'Gaff' }));
    await open_fitting(studio);
    await choose(studio, await picture(studio.page, { width: 400, height: 300 }));
    await until(() => studio.has('button', 'Photograph 1'));
    await studio.press('button', 'Photograph 1');
    await shown(studio);
    assert.ok(!(await studio.statuses()).some((text) => /not in this rack/.test(text)));
  },

  'the store of the version before has its tickets still, and room for photographs': async (visitor) => {
    const page = await visitor.new_page();
    page.on('pageerror', (error) => visitor.faults.push(`uncaught: ${error.message}`));
    await page.goto(`${visitor.url}slip.html`);
    const card = JSON.stringify({ 'coatwright-card': 2, id: 'Gaff0000', place: 'rack', changed: 1764086400123, ticket: fitted({ dog: 'Gaff' }) });
    await page.evaluate((line) => new Promise((resolve) => {
      const open = indexedDB.open('coatwright', 3);
      open.onupgradeneeded = () => {
        for (const name of ['journal', 'aside']) open.result.createObjectStore(name, { autoIncrement: true });
        for (const name of ['cards', 'notes', 'letters']) open.result.createObjectStore(name);
        open.result.createObjectStore('history', { autoIncrement: true }).createIndex('id', 'id');
        open.transaction.objectStore('cards').put(line, 'Gaff0000');
      };
      open.onsuccess = () => { open.result.close(); resolve(); };
    }), card);
    await page.goto(visitor.url);
    const studio = new Studio(page);
    await studio.ready();
    await until(() => studio.has('button', /^Ticket: Gaff/));
    await open_fitting(studio);
    await choose(studio, await picture(page, { width: 400, height: 300 }));
    await until(() => studio.has('button', 'Photograph 1'));
    assert.deepEqual((await kept_photographs(page)).map(({ ticket: of }) => of), ['Gaff0000']);
  },
};
