// What the studio says of itself, and the notices of the work that it is made with.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

import { devices } from './studio_page.mjs';
import { kept_offline, until } from './studio.mjs';

async function about(visitor, device) {
  const studio = await visitor.studio(device);
  await studio.press('button', /^Ticket: /);
  await until(() => studio.has('button', 'About Coatwright'));
  await studio.show('button', 'About Coatwright');
  await studio.page.keyboard.press('Enter');
  await until(() => studio.has('heading', 'About Coatwright'));
  return studio;
}

export default {
  'about is reached by the keyboard from the rack, on a tablet and a phone, and says what leaves the device': async (visitor) => {
    for (const device of [devices.tablet, devices.phone]) {
      const studio = await about(visitor, device);
      await studio.sees(/^Version \d/);
      await studio.sees(/^Nothing leaves this device unless you send it/);
      await studio.sees(/^Ask a veterinarian first/);
      await studio.sees(/^idb, ISC licence/);
      await studio.press('button', 'Back to the rack');
      await until(() => studio.has('heading', 'The rack'));
    }
  },

  'the notices lie in the site and open beside the studio, with a network and without': async (visitor, site) => {
    const studio = await about(visitor, devices.tablet);
    await kept_offline(studio.page);
    for (const offline of [false, true]) {
      await studio.page.context().setOffline(offline);
      const opened = studio.page.context().waitForEvent('page');
      await studio.press('button', 'Their notices in full');
      const page = await opened;
      await page.waitForLoadState();
      const shown = await page.evaluate(() => document.body.innerText);
      assert.equal(shown.trim(), readFileSync(join(site, 'notices.txt'), 'utf8').trim(), offline ? 'offline' : 'online');
      assert.equal(await page.evaluate(() => window.opener), null);
      await page.close();
    }
  },

  'the slip names the notices too': async (_, site) => {
    assert.match(readFileSync(join(site, 'slip.html'), 'utf8'), /<a href="notices\.txt" target="_blank" rel="noopener">/);
  },
};
