// The studio without a network, once it was opened.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { Studio, kept_offline, until } from './studio.mjs';
import { devices, serve } from './studio_page.mjs';

async function first_visit(visitor, url) {
  const page = await visitor.new_page(devices.tablet);
  await page.goto(url);
  const studio = new Studio(page);
  await studio.ready();
  await kept_offline(page);
  return studio;
}

export default {
  'the studio opens without a network once it was opened, and keeps what is done there': async (visitor, site) => {
    const server = await serve(site);
    const studio = await first_visit(visitor, server.url);
    server.stop();
    await studio.page.context().setOffline(true);
    await studio.page.goto('about:blank');
    await assert.rejects(fetch(server.url));
    await studio.page.goto(server.url);
    await studio.ready();
    await studio.take('Chest girth', '27 1/4');
    await studio.station('Draft');
    await studio.sees('measures are estimated');
    await studio.page.evaluate(() => coatwright.stored());
    await studio.page.goto('about:blank');
    await studio.page.goto(`${server.url}index.html`);
    await studio.ready();
    assert.ok((await studio.saved_ticket()).readings.chest.includes('27 1/4 in'));
  },

  'a newer studio is used as soon as there is a network, and the older one is forgotten': async (visitor, site) => {
    const folder = mkdtempSync(join(tmpdir(), 'coatwright-'));
    cpSync(site, folder, { recursive: true });
    const server = await serve(folder);
    const studio = await first_visit(visitor, server.url);
    const change = (file, from, to) => {
      const path = join(folder, file), text = readFileSync(path, 'utf8');
      assert.ok(text.match(from), `${file}: ${from}`);
      writeFileSync(path, text.replace(from, to));
    };
    change('page.js', /$/, "\ndocument.documentElement.dataset.version = 'two';\n");
    change('index.html', /page\.js\?\w+/, 'page.js?two');
    change('studio_worker.js', /page\.js\?\w+/, 'page.js?two');
    change('studio_worker.js', /coatwright-studio-\w+/, 'coatwright-studio-two');
    await studio.page.reload();
    await studio.ready();
    assert.equal(await studio.page.evaluate(() => document.documentElement.dataset.version), 'two');
    await until(async () => await studio.page.evaluate(async () => (await caches.keys()).join()) === 'coatwright-studio-two');
    server.stop();
    rmSync(folder, { recursive: true });
  },

  'the worker of the studio leaves other pages of the site alone': async (visitor, site) => {
    const server = await serve(site);
    const studio = await first_visit(visitor, server.url);
    await studio.page.goto(`${server.url}slip.html`);
    assert.equal(await studio.page.title(), 'Measuring slip');
    server.stop();
  },
};
