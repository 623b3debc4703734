// The canvas itself: sharp at every ratio, still when nothing changes, back after its graphics context was lost.
import assert from 'node:assert/strict';

import { shot } from './pixels.mjs';
import { devices, drawn } from './studio_page.mjs';
import { until } from './studio.mjs';

const sizes = (page) => page.evaluate(() => {
  const canvas = document.querySelector('canvas'), box = canvas.getBoundingClientRect();
  return { device: [canvas.width, canvas.height], css: [box.width, box.height], ratio: devicePixelRatio };
});
function assert_crisp({ device, css, ratio }, what) {
  for (const i of [0, 1]) assert.ok(Math.abs(device[i] - css[i] * ratio) <= 0.5, `${what}: ${device} for ${css} at ${ratio}`);
}

// Where everything stands, CSS px.
const boxes = (studio) => studio.page.locator('#mirror [data-id]').evaluateAll((all) => Object.fromEntries(all.map((e) => {
  const { x, y, width, height } = e.getBoundingClientRect();
  return [e.dataset.id, [x, y, width, height]];
})));
// Of the pixels in which a line of letters differs from its ground, the share that is neither ink nor ground. `blown_up`: as
// it would be if the picture were so many times coarser and made larger by the browser.
function softness(page, picture, blown_up = 1) {
  return page.evaluate(async ([data, times]) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const drawn = (source, width, height) => {
      const pen = Object.assign(document.createElement('canvas'), { width, height }).getContext('2d', { willReadFrequently: true });
      pen.imageSmoothingQuality = 'high';
      pen.drawImage(source, 0, 0, width, height);
      return pen;
    };
    const coarse = drawn(image, Math.round(image.width / times), Math.round(image.height / times)).canvas;
    const { data: pixels } = drawn(coarse, image.width, image.height).getImageData(0, 0, image.width, image.height);
    const light = Array.from({ length: pixels.length / 4 }, (_, i) => pixels[4 * i] + pixels[4 * i + 1] + pixels[4 * i + 2]);
    const ground = light[0], ink = light.reduce((far, one) => (Math.abs(one - ground) > Math.abs(far - ground) ? one : far), ground);
    const share = light.map((one) => (one - ground) / (ink - ground));
    const inked = share.filter((one) => one > 0.1);
    return inked.filter((one) => one < 0.9).length / inked.length;
  }, [picture.toString('base64'), blown_up]);
}

export default {
  'one pixel of the canvas is one pixel of the screen at every ratio, and a tap lands where it is seen': async (visitor) => {
    for (const ratio of [1, 1.5, 2, 3]) {
      const studio = await visitor.studio({ viewport: { width: 901, height: 701 }, deviceScaleFactor: ratio, hasTouch: true });
      const now = await sizes(studio.page);
      assert.equal(now.ratio, ratio);
      assert_crisp(now, `ratio ${ratio}`);
      // The last control of the row, far from the corner where an error of scale would not show.
      await studio.tap('button', 'Evening');
      await studio.control('button', 'Day').waitFor({ state: 'attached' });
      await studio.tap('tab', 'Print');
      await until(async () => await studio.control('tab', 'Print').getAttribute('aria-selected') === 'true');
    }
  },

  'at ratio 3 everything stands where it stands at ratio 1, and its letters are as sharp as the screen': async (visitor) => {
    const stood = {};
    for (const ratio of [1, 3]) {
      const studio = await visitor.studio({ ...drawn(devices.tablet), deviceScaleFactor: ratio });
      for (const station of ['Measure', 'Draft', 'Print', 'Make']) {
        await studio.station(station);
        await studio.rest();
        const now = await boxes(studio);
        if (ratio === 1) { stood[station] = now; continue; }
        assert.deepEqual(Object.keys(now), Object.keys(stood[station]), station);
        for (const [id, box] of Object.entries(now)) {
          const off = Math.max(...box.map((side, i) => Math.abs(side - stood[station][id][i])));
          assert.ok(off < 1, `${station}, ${id}: ${box} was ${stood[station][id]}`);
        }
      }
      if (ratio === 1) continue;
      const { x, y, width, height } = await studio.box('tab', 'Print');
      const name = await studio.page.screenshot({ clip: { x: x + width / 2 - 30, y: y + 0.45 * height - 14, width: 60, height: 28 } });
      const soft = await softness(studio.page, name), coarse = await softness(studio.page, name, ratio);
      assert.ok(soft < 0.6 * coarse, `${soft} of the letters is neither ink nor ground, ${coarse} in a third of the pixels`);
    }
  },

  'however far the page is enlarged, its letters are there and no texture is larger than a telephone takes': async (visitor) => {
    const studio = await visitor.studio({ viewport: { width: 360, height: 300 }, deviceScaleFactor: 8, hasTouch: true }, () => {
      window.sides = [];
      const pen = WebGL2RenderingContext.prototype, { texImage2D } = pen;
      pen.texImage2D = function (...given) {
        window.sides.push(given[3], given[4]);
        return texImage2D.apply(this, given);
      };
    });
    assert_crisp(await sizes(studio.page), 'ratio 8');
    const sides = await studio.page.evaluate(() => window.sides);
    assert.ok(sides.length >= 2 && Math.max(...sides) <= 4096, `textures of ${sides}`);
    await studio.rest();
    const { x, y, width, height } = await studio.box('tab', 'Draft');
    const name = await studio.page.screenshot({ clip: { x, y: y + 0.45 * height - 10, width, height: 20 } });
    assert.ok(await softness(studio.page, name) < 0.9);
  },

  'after the window was resized or turned it is as sharp, and a click lands where it is seen': async (visitor) => {
    const studio = await visitor.studio({ ...devices.laptop, deviceScaleFactor: 1.5 });
    for (const size of [{ width: 820, height: 1180 }, { width: 1180, height: 820 }, { width: 390, height: 844 }]) {
      await studio.page.setViewportSize(size);
      await until(async () => {
        const now = await sizes(studio.page);
        assert.deepEqual(now.css, [size.width, size.height]);
        assert_crisp(now, `${size.width}×${size.height}`);
        const tape = await studio.box('tab', 'Make');  // the last one
        assert.ok(Math.abs(tape.x + tape.width - size.width) < 1.5, 'the tape reaches the edge');
      });
      for (const station of ['Print', 'Measure']) {
        await studio.click('tab', station);
        await until(async () => await studio.control('tab', station).getAttribute('aria-selected') === 'true');
      }
    }
  },

  'nothing is drawn while nothing changes, at any station': async (visitor) => {
    const studio = await visitor.studio();
    for (const station of ['Measure', 'Draft', 'Print']) {
      await studio.station(station);
      await studio.rest();
      const drawn = () => studio.page.evaluate(() => window.meter.frames);
      const before = await drawn();
      assert.ok(before > 0);
      await studio.page.evaluate(() => new Promise((resolve) => { setTimeout(resolve, 2000); }));
      assert.equal(await drawn(), before, station);
    }
    await studio.press('button', 'Show centimetres');
    await studio.page.waitForFunction((n) => window.meter.frames > n, await studio.page.evaluate(() => window.meter.frames) - 1);
  },

  'a lost graphics context comes back with the same picture and a working page': async (visitor) => {
    const studio = await visitor.studio(drawn(devices.tablet));
    await studio.station('Draft');
    await studio.look_away();
    const before = await shot(studio.page, {});
    await studio.page.evaluate(async () => {
      const canvas = document.querySelector('canvas');
      const lost = new Promise((resolve) => { canvas.addEventListener('webglcontextlost', resolve, { once: true }); });
      window.lose = canvas.getContext('webgl2').getExtension('WEBGL_lose_context');
      window.lose.loseContext();
      await lost;
    });
    // What happens meanwhile is not lost.
    await studio.press('button', 'Show centimetres');
    await studio.page.evaluate(async () => {
      const canvas = document.querySelector('canvas');
      const restored = new Promise((resolve) => { canvas.addEventListener('webglcontextrestored', resolve, { once: true }); });
      window.lose.restoreContext();
      await restored;
    });
    await until(() => studio.has('button', 'Show inches'));
    await studio.tap('button', 'Show inches');
    await until(() => studio.has('button', 'Show centimetres'));
    await studio.press('button', 'Undo');
    await until(() => studio.has('button', 'Show inches'));
    await studio.press('button', 'Undo');
    await until(async () => await studio.control('button', 'Undo').isDisabled());
    await studio.rest();
    await studio.look_away();
    const redo = await studio.box('button', 'Redo');  // differs, since there is something to redo now
    const same = await studio.page.evaluate(async ([a, b, box]) => {
      const [{ data: p, width }, { data: q }] = [await pixels_of(a), await pixels_of(b)];
      const k = width / innerWidth;
      const in_box = (x, y) => x > box.x - 2 && x < box.x + box.width + 2 && y > box.y - 2 && y < box.y + box.height + 2;
      let different = 0;
      for (let i = 0; i < p.length; i += 4) {
        if ((p[i] !== q[i] || p[i + 1] !== q[i + 1] || p[i + 2] !== q[i + 2]) && !in_box((i / 4) % width / k, Math.floor(i / 4 / width) / k)) different += 1;
      }
      return different / (p.length / 4);
    }, [before, await shot(studio.page, {}), redo]);
    assert.ok(same < 0.0005, `${100 * same} % of the picture differs`);
  },
};
