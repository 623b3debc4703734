// Each page stands by itself: not in another page's frame, not tied to the page that opened it, and not silent when a
// file of it is missing.
import assert from 'node:assert/strict';
import { createServer } from 'node:http';

import { request } from './slip_codes.mjs';
import { devices } from './studio_page.mjs';

const pages = {
  slip: { path: () => `slip.html#${request()}`, words: 'slip', script: /slip\.js/, program: /slip\.wasm/ },
  studio: { path: () => '', words: 'Coatwright', script: /page\.js/, program: /app\.wasm/ },
};

// A page on another port, and thus of another origin.
async function foreign(html) {
  const asked = [];
  const server = createServer((message, response) => {
    asked.push(message.headers.referer ?? '');
    response.writeHead(200, { 'Content-Type': 'text/html' }).end(html);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { url: `http://127.0.0.1:${server.address().port}/`, asked, stop: () => server.close() };
}

export default {
  'neither page runs in a frame of another page, and says so there': async (visitor) => {
    for (const { path, words } of Object.values(pages)) {
      const other = await foreign(`<!doctype html><iframe src="${visitor.url}${path()}" width="800" height="600"></iframe>`);
      const page = await visitor.new_page(devices.laptop);
      await page.goto(other.url);
      const frame = page.frameLocator('iframe');
      await frame.getByText(`Another page shows ${words === 'slip' ? 'this slip' : words} inside its own`).waitFor();
      await page.waitForTimeout(1500);
      assert.equal(await frame.locator('html[data-ready]').count(), 0, words);
      assert.equal(await frame.getByRole('button').count(), 0, words);
      other.stop();
    }
  },

  'neither page keeps the page that opened it, nor tells anybody where it stands': async (visitor) => {
    for (const { path } of Object.values(pages)) {
      const other = await foreign('<!doctype html><title>Other</title>');
      const page = await visitor.new_page(devices.laptop);
      await page.goto(other.url);
      const [opened] = await Promise.all([page.waitForEvent('popup'), page.evaluate((address) => { window.open(address); }, visitor.url + path())]);
      await opened.waitForFunction(() => document.documentElement.dataset.ready === 'yes', null, { timeout: 30000 });
      assert.equal(await opened.evaluate(() => window.opener), null);
      // A link from the page to elsewhere, as a browser's own menu or an extension may put one in.
      await opened.evaluate((address) => { location.href = address; }, other.url);
      await opened.waitForURL(other.url);
      assert.ok(other.asked.length >= 2);
      assert.deepEqual(other.asked.filter((referrer) => referrer.startsWith(visitor.url)), []);
      other.stop();
    }
  },

  'a page whose script or program is missing, blocked or held says so within seconds': async (visitor) => {
    for (const { path, script, program } of Object.values(pages)) {
      for (const [files, hinder] of [[script, (route) => route.fulfill({ status: 404 })], [script, (route) => route.abort()], [script, () => {}],
        [program, (route) => route.fulfill({ status: 404 })], [program, (route) => route.abort('blockedbyclient')], [program, () => {}]]) {
        const page = await visitor.new_page(devices.phone);
        await page.route(files, hinder);
        await page.goto(visitor.url + path(), { waitUntil: 'commit' });
        await page.getByText(/could not be loaded|takes longer than it should/).filter({ visible: true }).first().waitFor({ timeout: 60000 });
        await page.close();
      }
    }
  },

  'a browser without WebAssembly is told so': async (visitor) => {
    for (const { path } of Object.values(pages)) {
      const page = await visitor.new_page(devices.phone);
      await page.addInitScript(() => { delete window.WebAssembly; });
      await page.goto(visitor.url + path());
      await page.getByText(/WebAssembly/).filter({ visible: true }).first().waitFor();
    }
  },

  'nobody is told to wait where the page is there': async (visitor) => {
    for (const { path } of Object.values(pages)) {
      const page = await visitor.open(devices.phone, path());
      await page.waitForTimeout(8500);
      assert.ok(await page.locator('#late').isHidden());
    }
  },

  'the studio refuses more bytes than it was lent room for, and goes on': async (visitor) => {
    const page = await visitor.open(devices.tablet);
    const told = await page.evaluate(() => {
      const place = Module._coatwright_room(5);
      Module.HEAPU8.set(new TextEncoder().encode('hello'), place);
      Module._coatwright_text(place, 0x7fffffff);  // far more than was lent
      Module._coatwright_text(place, 100);         // nothing is lent any more
      Module._coatwright_file(place + 64, 1 << 20);
      Module._coatwright_link(0, -1);
      Module._coatwright_room(8);
      Module._coatwright_file(16, 1 << 28);  // a place that was never lent
      return Module._coatwright_room(-1);
    });
    assert.equal(told, 0);
    // More text than a stack holds, into the field of the screen that the link has opened and as a paste.
    const refused = page.locator('#mirror p').filter({ hasText: /^The text is longer than the 65536 bytes/ });
    await page.evaluate(() => { call('coatwright_enter', 'answer.text', 'x'.repeat(3 << 20), ''); });
    await refused.first().waitFor({ state: 'attached' });
    await page.evaluate(() => { take_text('x'.repeat(3 << 20)); });
    await refused.first().waitFor({ state: 'attached' });
    await page.getByRole('button', { name: 'Back to the ticket' }).evaluate((button) => button.click());
    await page.getByRole('button', { name: 'Measuring slip' }).waitFor({ state: 'attached' });
  },
};
