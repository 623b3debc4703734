// The site as a whole: how much is sent, and that the pages cannot talk to anyone.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

import { shot } from './pixels.mjs';
import { devices, drawn } from './studio_page.mjs';

const kTransferLimit = 1.25e6;  // bytes, compressed: what comes before anybody asks for a file
const kClothLimit = 2.5e4;

function files_of(site) {
  return readdirSync(site, { withFileTypes: true })
    .flatMap((entry) => (entry.isDirectory() ? files_of(join(site, entry.name)) : [join(site, entry.name)]));
}

// How many colours a screenshot of the page holds: 1 where nothing was drawn.
async function colours_shown(page) {
  return page.evaluate(async (png) => new Set(new Uint32Array((await pixels_of(png)).data.buffer)).size, await shot(page));
}

export default {
  'everything together is sent in at most 1.25 MB, and the press by itself in half of that': async (_, site) => {
    const sent = { studio: 0, press: 0, cloth: 0 };
    for (const file of files_of(site)) {
      const bytes = gzipSync(readFileSync(file), { level: 9 }).length;
      const name = file.slice(site.length + 1);
      sent[/^(press|cloth)\./.exec(name)?.[1] || 'studio'] += bytes;
      console.log(`  ${name} ${bytes} bytes`);
    }
    console.log(`  together ${sent.studio} bytes, the press ${sent.press} bytes, the page for the cloth ${sent.cloth} bytes`);
    assert.ok(sent.studio > 0 && sent.studio <= kTransferLimit, `${sent.studio} bytes`);
    assert.ok(sent.cloth > 0 && sent.cloth <= kClothLimit, `${sent.cloth} bytes`);
    assert.ok(sent.press > 0 && sent.press <= kTransferLimit / 2, `${sent.press} bytes`);
  },

  'every page forbids all connections but to its own site': async (_, site) => {
    const pages = files_of(site).filter((file) => file.endsWith('.html'));
    assert.ok(pages.length > 0);
    for (const page of pages) {
      const policy = readFileSync(page, 'utf8').match(/http-equiv="Content-Security-Policy" content="([^"]*)"/)?.[1] ?? '';
      const rules = Object.fromEntries(policy.split(';').map((rule) => rule.trim().split(/ (.*)/)));
      assert.equal(rules['default-src'], "'none'", page);
      for (const [name, value] of Object.entries(rules)) {
        for (const source of value.split(' ')) {
          assert.match(source, /^('none'|'self'|'wasm-unsafe-eval'|'sha256-[A-Za-z0-9+/]{43}='|blob:|data:)$/, `${page}: ${name}`);
        }
      }
    }
  },

  'the studio can be installed: its manifest names icons of the sizes that they have': async (_, site) => {
    const html = readFileSync(join(site, 'index.html'), 'utf8');
    assert.match(html, /<link rel="manifest" href="studio\.webmanifest">/);
    const size = (file) => { const png = readFileSync(join(site, file)); return `${png.readUInt32BE(16)}x${png.readUInt32BE(20)}`; };
    const manifest = JSON.parse(readFileSync(join(site, 'studio.webmanifest'), 'utf8'));
    assert.deepEqual([manifest.display, manifest.start_url, manifest.scope], ['standalone', './', './']);
    assert.deepEqual(manifest.icons.map((icon) => icon.sizes), ['192x192', '512x512']);
    for (const icon of manifest.icons) assert.equal(size(icon.src), icon.sizes);
    const [, touch] = html.match(/<link rel="apple-touch-icon" href="([^"]+)">/);
    assert.equal(size(touch), '180x180');
  },

  'the studio opens and draws on every device': async (visitor) => {
    for (const [name, device] of Object.entries(devices)) {
      const page = await visitor.open(drawn(device));
      const { width, height } = device.viewport;
      const canvas = await page.locator('canvas').boundingBox();
      assert.deepEqual([canvas.width, canvas.height], [width, height], name);
      const status = page.locator('#status');
      assert.equal(await status.isVisible(), false, name);
      assert.ok(await colours_shown(page) > 10, `${name}: nothing is drawn`);
    }
  },

  'a program that cannot be loaded is told in words': async (visitor) => {
    const page = await visitor.new_page();
    await page.route('**/app.js*', (route) => route.abort());
    await page.goto(visitor.url);
    await page.getByText('Coatwright stopped').waitFor({ timeout: 10000 });
  },
};
