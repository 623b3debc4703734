// Names of every script: what stands on the canvas is held against the browser's own drawing of the name, pixel by pixel.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { devices, drawn } from './studio_page.mjs';
import { until } from './studio.mjs';
import { ticket } from './tickets.mjs';

// Ten names in nine scripts: one with its accent typed behind the letter, one of an emoji.
const kNames = ['Шарик', 'Αργύρης', 'רקס', 'ريكس', '犬太郎', 'काला', '한가람', '🐕 Rex', 'Pr\u030cemek', 'Կայծակ'];
const kFaces = 'Coatwright, system-ui, sans-serif';

// How far what the picture (PNG) shows is from the name as the browser draws it, its left end on the middle of the left edge, up to a
// few pixels: 0 is all the same, 1 as different as an empty place. `font` as in CSS, its size in the picture's pixels.
function unlikeness(page, picture, name, font) {
  return page.evaluate(async ([data, text, css]) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const pen_on = (width, height) => Object.assign(document.createElement('canvas'), { width, height }).getContext('2d', { willReadFrequently: true });
    const shown = pen_on(image.width, image.height);
    shown.drawImage(image, 0, 0);
    const there = shown.getImageData(0, 0, image.width, image.height).data;
    const drawn = pen_on(image.width, image.height);
    const name_at = (x, y) => {
      Object.assign(drawn, { font: css, textAlign: 'left', fillStyle: '#1f2937' });
      drawn.clearRect(0, 0, image.width, image.height);
      drawn.fillText(text, x, y);
      return drawn.getImageData(0, 0, image.width, image.height).data;
    };
    const reach = 4, middle = image.height / 2, least = Math.round(middle + 0.2 * parseInt(css.slice(4), 10));
    let best = 1;
    for (let y = least; y <= least + 3 * reach; y += 1) {
      for (let x = 0; x <= 2 * reach; x += 1) {
        const wanted = name_at(x, y);
        let off = 0, ink = 0;
        for (let k = 0; k < there.length; k += 4) {
          const alpha = wanted[k + 3] / 255;
          for (let c = 0; c < 3; c += 1) {
            const whole = there[c] * (1 - alpha) + wanted[k + c] * alpha;  // on the colour of the corner
            off += Math.abs(there[k + c] - whole);
            ink += Math.abs(there[c] - whole);
          }
        }
        if (ink > 0) best = Math.min(best, off / ink);
      }
    }
    return best;
  }, [picture.toString('base64'), name, font]);
}
async function picture_of(studio, { x, y, width, height }) {
  await studio.rest();
  return studio.page.screenshot({ clip: { x, y, width, height } });
}
const closely = 0.15;  // what rounding and the ground's shades leave

export default {
  'a name of any script is drawn as the browser draws it, on ticket and rack, is found there, and stands in sheets, picture and file names': async (visitor) => {
    const studio = await visitor.studio(drawn(devices.tablet));
    const like = async (picture, name, size, where) => {
      assert.ok(await unlikeness(studio.page, picture, name, `600 ${size}px ${kFaces}`) < closely, `${name} on ${where}`);
      const other = name === 'Шарик' ? 'Кирша' : 'Шарик';
      assert.ok(await unlikeness(studio.page, picture, other, `600 ${size}px ${kFaces}`) > 3 * closely, `${name} is not taken for another`);
    };
    for (const name of kNames) {
      await studio.open_ticket(ticket({ dog: name }));
      await like(await picture_of(studio, { x: 44, y: 12, width: 110, height: 20 }), name, 16, 'the tape');
    }
    await studio.press('button', /^Ticket: /);
    await studio.rest();
    let seen = 0;
    for (const name of kNames) {
      const open = new RegExp(`^Open ${name}`);
      if (!await studio.has('button', open)) continue;  // hangs further down
      const card = await studio.box('button', open);
      if (card.y + card.height > 800) continue;
      await like(await studio.page.screenshot({ clip: { x: card.x + 10, y: card.y + 28 + 142, width: 130, height: 24 } }), name, 19, 'its card');
      seen += 1;
    }
    assert.ok(seen >= 3);
    const finds = { 'ШАРИК': 'Шарик', 'αργυρης': 'Αργύρης', 'רֶקְס': 'רקס', 'přemek': 'Pr\u030cemek', 'premek': 'Pr\u030cemek', '犬': '犬太郎', 'ԿԱՅԾԱԿ': 'Կայծակ' };
    for (const [typed, name] of Object.entries(finds)) {
      await studio.set('textbox', 'Find', typed);
      await until(async () => await studio.has('button', new RegExp(`^Open ${name}`)) && await studio.all('button', /^Open .*, /).count() === 1);
    }
    await studio.press('button', /^Open .*, /);  // Կայծակ
    assert.equal((await studio.save('Ticket file')).name, 'Կայծակ-ticket.json');
    assert.ok((await studio.save('Picture, PNG')).bytes.length > 1000);
    const scratch = mkdtempSync(join(tmpdir(), 'coatwright-')), pdf = join(scratch, 'sheets.pdf');
    await studio.print_to(pdf);
    assert.match(execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8' }), /Կայծակ/);
    rmSync(scratch, { recursive: true });
  },

  'a name is as sharp on a screen of finer pixels': async (visitor) => {
    const studio = await visitor.studio({ ...drawn(devices.tablet), deviceScaleFactor: 2 });
    await studio.set('textbox', 'Dog’s name', '🐕 Шарик');
    await until(() => studio.has('button', /^Ticket: 🐕 Шарик/));
    const tape = await picture_of(studio, { x: 44, y: 12, width: 110, height: 20 });
    assert.ok(await unlikeness(studio.page, tape, '🐕 Шарик', `600 32px ${kFaces}`) < closely);
  },
};
