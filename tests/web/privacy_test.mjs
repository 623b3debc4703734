// The page talks to nobody after it has loaded, and its policy is broken by nothing that it does itself.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { ticket } from './tickets.mjs';

export default {
  'a whole visit asks the network for nothing but the press and breaks no rule of its policy': async (visitor) => {
    const page = await visitor.open(devices.tablet, '', () => {
      window.broken_rules = [];
      document.addEventListener('securitypolicyviolation', (event) => {
        window.broken_rules.push(`${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`);
      });
      window.print = () => {};
    });
    const asked = [];
    page.on('request', (request) => { if (!/^(data|blob):/.test(request.url())) asked.push(request.url()); });
    const { Studio } = await import('./studio.mjs');
    const studio = new Studio(page);
    await studio.press('button', 'Chest girth');
    await studio.tap('button', '2');
    await studio.station('Draft');
    await studio.press('button', 'Show centimetres');
    await studio.press('button', 'Evening');
    await studio.open_ticket(ticket({ dog: 'Halyard' }));
    for (const file of ['Sheets, SVG', 'Pattern, SVG', 'Picture, PNG', 'Ticket file']) assert.ok((await studio.save(file)).bytes.length > 500, file);
    await studio.print_part('On paper here');
    await studio.press('button', 'Print');
    await until(() => page.evaluate(() => document.getElementById('print').childElementCount > 0));
    await studio.rest();
    // The press is the page's own, and loaded when a file is first asked for.
    assert.deepEqual(asked.filter((address) => !/\/press\.(js|wasm)\?\w+$/.test(address)), []);
    assert.deepEqual(await page.evaluate(() => window.broken_rules), []);
  },

  'the policy stops what the page does not do': async (visitor) => {
    const page = await visitor.open();
    const stopped = await page.evaluate(() => new Promise((resolve) => {
      document.addEventListener('securitypolicyviolation', (event) => resolve(event.violatedDirective), { once: true });
      fetch('http://127.0.0.1:9/').catch(() => {});
      setTimeout(() => resolve('nothing'), 5000);
    }));
    assert.equal(stopped, 'connect-src');
    visitor.faults.length = 0;  // the refused request is what was wanted
  },
};
