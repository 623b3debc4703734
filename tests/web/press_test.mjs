// The press: files of a ticket, made by a program of their own that is loaded when one is first asked for.
import assert from 'node:assert/strict';

import { measured, run, with_pdf } from './printed.mjs';
import { Studio, kept_offline, until } from './studio.mjs';
import { devices, serve } from './studio_page.mjs';
import { giant, ticket } from './tickets.mjs';

const told_missing = 'The part of Coatwright that makes files could not be loaded';

export default {
  'the sheets of a giant’s coat are saved as PDF at true scale and meet': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.open_ticket(giant({ paper: 'a4', turn: 'portrait', margin: 12.7, overlap: 15, opened: false, 'body-lines': false }));
    const file = await studio.save('Save as PDF');
    assert.match(file.name, /-sheets\.pdf$/);
    await with_pdf(file, (pdf) => {
      const { pages, joins } = measured(pdf, 210, 297, 12.7, 15);
      assert.ok(pages.length > 4);
      for (const page of pages) {
        assert.ok(Math.abs(page.width - 210) < 0.005 && Math.abs(page.height - 297) < 0.005, `${page.width} × ${page.height} mm`);
        for (const axis of ['check_x', 'check_y']) assert.ok(Math.abs(page[axis][0] - 100) <= 0.01, `${page[axis][0]} mm`);
      }
      for (const one of joins) assert.ok(one.worst_mm <= 0.1, `sheets ${one.first} and ${one.second} are ${one.worst_mm} mm off`);
      assert.ok(joins.reduce((sum, one) => sum + one.samples, 0) > 500);
    });
  },

  'names in every script stand in the PDF as the browser draws them, and can be found there': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    for (const name of ['Шарик', 'כלב הים', '犬太郎', '🐕‍🦺 Bosun']) {
      await studio.open_ticket(ticket({ dog: name, print: { paper: 'a0', turn: 'portrait', margin: 12.7, overlap: 15, opened: false, 'body-lines': false } }));
      await with_pdf(await studio.save('Save as PDF'), (pdf) => {
        assert.ok(run('pdftotext', pdf, '-').replace(/[\u202a-\u202e\u2066-\u2069]/g, '').includes(name), name);
        assert.ok(run('pdfimages', '-list', pdf).split('\n').length > 4, `${name} is drawn`);
        assert.doesNotMatch(run('pdftotext', pdf, '-'), /□/);
      });
      assert.ok(!(await studio.statuses()).some((words) => words.includes('□')));
    }
  },

  'files are made without a network once the studio was opened, though none was asked for before': async (visitor, site) => {
    const server = await serve(site);
    const page = await visitor.new_page(devices.tablet);
    await page.goto(server.url);
    const studio = new Studio(page);
    await studio.ready();
    await kept_offline(page);
    server.stop();
    await page.context().setOffline(true);
    await page.goto('about:blank');
    await page.goto(server.url);
    await studio.ready();
    await with_pdf(await studio.save('One page, PDF'), (pdf) => assert.match(run('pdfinfo', pdf), /^Pages: +1$/m));
  },

  'a press that cannot be loaded says so, leaves Print usable, and is tried again': async (visitor, site) => {
    const server = await serve(site);
    for (const part of ['press.js', 'press.wasm']) {
      const page = await visitor.new_page(devices.phone);
      await page.addInitScript(() => {
        window.print = () => { window.printed = document.querySelectorAll('#print svg').length; };
        Object.defineProperty(Navigator.prototype, 'serviceWorker', { value: { register: async () => { throw new Error('none here'); } } });
      });
      await page.route(`**/${part}*`, (route) => route.abort());
      await page.goto(server.url);
      const studio = new Studio(page);
      await studio.ready();
      await studio.print_part('Shop or machine');
      await studio.press('button', 'One page, PDF');
      await studio.sees(told_missing);
      await studio.print_part('On paper here');
      await studio.press('button', 'Print');
      await page.waitForFunction(() => window.printed > 1);
      await page.unroute(`**/${part}*`);
      assert.ok((await studio.save('One page, PDF')).bytes.length > 10000, part);
    }
    server.stop();
  },

  'a PDF goes to the device’s share sheet, also where making it took longer than a press lasts': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      window.shared = [];
      window.impatient = true;
      navigator.canShare = () => true;
      navigator.share = async ({ files: [file], title }) => {
        if (window.impatient) throw new DOMException('too late', 'NotAllowedError');
        window.shared.push([file.name, file.type, (await file.text()).slice(0, 5), title]);
      };
    });
    await studio.print_part('On paper here');
    await studio.press('button', 'Share the PDF');
    await studio.sees('Press the key once more');
    await studio.page.evaluate(() => { window.impatient = false; });
    await studio.press('button', 'Share the PDF');
    await until(async () => assert.deepEqual(await studio.page.evaluate(() => window.shared),
      [['bosun-sheets.pdf', 'application/pdf', '%PDF-', 'bosun-sheets.pdf']]));
    await until(() => studio.control('button', 'Save as PDF').isEnabled());
  },

  'a file that is being made can be stopped, and another is made after it': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    let held = [];
    await studio.page.context().route('**/press.wasm*', (route) => { held.push(route); });
    await studio.print_part('To a person');
    await studio.press('button', 'Picture, PNG');
    await studio.sees('Making bosun-pattern.png');
    await studio.press('button', 'Stop');
    await until(() => studio.control('button', 'Picture, PNG').isEnabled());
    await studio.page.context().unroute('**/press.wasm*');
    for (const route of held) await route.abort().catch(() => {});
    held = [];
    assert.match((await studio.save('Cut list, CSV')).bytes.toString(), /coat,piece,/);
  },
};
