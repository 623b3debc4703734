// Photographs for the browser tests: drawn in the page itself, and what a camera or a hostile hand adds to the file.
import { until } from './studio.mjs';

// A picture in four quarters of one colour each (red, green, blue, white, in reading order), as a file of this type.
export async function picture(page, { width, height, type = 'image/jpeg' }) {
  return Buffer.from(await page.evaluate(async ([w, h, kind]) => {
    const canvas = Object.assign(document.createElement('canvas'), { width: w, height: h });
    const pen = canvas.getContext('2d');
    ['#d02020', '#20a020', '#2040d0', '#ffffff'].forEach((colour, i) => {
      pen.fillStyle = colour;
      pen.fillRect((i % 2) * w / 2, (i > 1 ? 1 : 0) * h / 2, w / 2, h / 2);
    });
    return canvas.toDataURL(kind, 0.9).split(',')[1];
  }, [width, height, type]), 'base64');
}

// A dog in its coat by the sea, as far as a few shapes go.
export async function dog_picture(page) {
  return Buffer.from(await page.evaluate(() => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 1600, height: 1200 });
    const pen = canvas.getContext('2d');
    const shape = (colour, ...path) => { pen.fillStyle = colour; pen.fill(new Path2D(path.join(' '))); };
    shape('#b8d4e8', 'M0 0H1600V700H0Z');
    shape('#5d8296', 'M0 480H1600V760H0Z');
    shape('#8f8577', 'M0 720H1600V1200H0Z');
    shape('#6b4a2f', 'M380 560Q300 420 360 330Q430 260 520 330L560 470Q900 430 1180 480Q1300 470 1340 380L1370 400Q1350 560 1270 600L1260 980H1190L1150 720Q900 760 640 720L600 980H530L520 700Q420 660 380 560Z');
    shape('#d7b93c', 'M520 440Q860 400 1150 470Q1200 640 1130 720Q900 780 640 740Q520 700 500 560Z');
    shape('#2c2622', 'M400 380a16 16 0 1 0 32 0a16 16 0 1 0 -32 0Z');
    return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
  }), 'base64');
}

// Numbers of an Exif directory (CIPA DC-008, section 4.6): tag, type, count, value; little-endian.
const entry = (tag, type, count, value) => {
  const out = Buffer.alloc(12);
  out.writeUInt16LE(tag, 0);
  out.writeUInt16LE(type, 2);
  out.writeUInt32LE(count, 4);
  if (Buffer.isBuffer(value)) value.copy(out, 8); else out.writeUInt32LE(value, 8);
  return out;
};
const directory = (...entries) => Buffer.concat([Buffer.from([entries.length, 0]), ...entries, Buffer.alloc(4)]);

// The JPEG as a telephone writes it that was held upright (orientation 6: it is to be turned by 90 degrees), with its place.
export const kSecret = 'Pier 4, second door';
export function with_exif(jpeg) {
  const text = Buffer.from(`${kSecret}\0`);
  const first = 8, gps = first + 2 + 3 * 12 + 4, words = gps + 2 + 2 * 12 + 4;
  const tiff = Buffer.concat([
    Buffer.from('II*\0'), Buffer.from([first, 0, 0, 0]),
    directory(entry(0x010e, 2, text.length, words), entry(0x0112, 3, 1, 6), entry(0x8825, 4, 1, gps)),
    directory(entry(1, 2, 2, Buffer.from('N\0')), entry(3, 2, 2, Buffer.from('E\0'))),
    text,
  ]);
  const body = Buffer.concat([Buffer.from('Exif\0\0'), tiff]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}

// The head and the end of a PNG of that size, and little between them.
export function png_head(width, height) {
  const out = Buffer.alloc(64);
  out.write('IEND', 56);
  out.write('\x89PNG\r\n\x1a\n', 'latin1');
  out.writeUInt32BE(13, 8);
  out.write('IHDR', 12);
  out.writeUInt32BE(width, 16);
  out.writeUInt32BE(height, 20);
  out.writeUInt8(8, 24);
  out.writeUInt8(6, 25);
  return out;
}

// Chosen on the Fit station, where a fitting stands open.
export async function choose(studio, buffer, name = 'dog.jpg', mimeType = 'image/jpeg') {
  const chooser = studio.page.waitForEvent('filechooser');
  await studio.press('button', 'Choose a photograph');
  await (await chooser).setFiles(typeof buffer === 'string' ? buffer : { name, mimeType, buffer });
}
export async function open_fitting(studio, number = 1) {
  await studio.station('Fit');
  const head = new RegExp(`^Fitting ${number}`);
  await until(() => studio.has('button', head));
  if (await studio.control('button', head).getAttribute('aria-expanded') !== 'true') await studio.press('button', head);
  await until(async () => await studio.control('button', head).getAttribute('aria-expanded') === 'true');
}

// Runs in the page: keys and bytes (as base64) of the photographs that are kept.
export const kept_photographs = (page) => page.evaluate(() => new Promise((resolve, reject) => {
  const open = indexedDB.open('coatwright');
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const table = open.result.transaction('photographs').objectStore('photographs');
    const keys = table.getAllKeys(), rows = table.getAll();
    rows.onsuccess = () => {
      open.result.close();
      resolve(keys.result.map(([ticket, id], i) => ({ ticket, id, bytes: btoa(Array.from(rows.result[i], (b) => String.fromCharCode(b)).join('')) })));
    };
  };
}));
// Puts photographs straight into the store.
export const put_photographs = (page, rows) => page.evaluate((all) => new Promise((resolve, reject) => {
  const open = indexedDB.open('coatwright');
  open.onerror = () => reject(open.error);
  open.onsuccess = () => {
    const change = open.result.transaction('photographs', 'readwrite');
    for (const { ticket, id, bytes } of all) {
      change.objectStore('photographs').put(Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0)), [ticket, id]);
    }
    change.oncomplete = () => { open.result.close(); resolve(); };
    change.onerror = () => reject(change.error);
  };
}), rows);
