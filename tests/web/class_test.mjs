// What goes out for several from a tablet's page: the class packet, and a run of sizes.
import assert from 'node:assert/strict';

import { reloaded } from './keeping.mjs';
import { measured, pages_of, run, with_pdf } from './printed.mjs';
import { until } from './studio.mjs';
import { devices } from './studio_page.mjs';
import { ticket } from './tickets.mjs';

const text_of = (pdf) => run('pdftotext', '-layout', pdf, '-');

export default {
  'a class’s packet holds the handout and every ticked dog’s sheets, and comes as one file': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    for (const dog of ['Gale', 'Tern']) await studio.open_ticket(ticket({ dog }));
    const alone = await with_pdf(await studio.save('Save as PDF'), pages_of);
    const of_one = await with_pdf(await studio.save('Class packet, PDF'), pages_of);
    await studio.press('checkbox', /^Gale/);
    const file = await studio.save('Class packet, PDF');
    assert.equal(file.name, 'coat-class.pdf');
    await with_pdf(file, (pdf) => {
      assert.equal(pages_of(pdf), of_one + alone, 'one more dog');
      const text = text_of(pdf);
      assert.match(text, /Measuring sheet: Wrap coat/);
      assert.match(text, /Tern/);
      assert.match(text, /Gale/);
    });
    await with_pdf(await studio.save('Measuring sheet, PDF'), (pdf) => {
      assert.ok(pages_of(pdf) <= 2);
      assert.match(text_of(pdf), /Breast length \*/);
    });
    await with_pdf(await studio.save('All their sheets, PDF'), (pdf) => assert.equal(pages_of(pdf), 2 * alone));
  },

  'sizes are pasted as a spreadsheet’s table, seen in each other, saved, there again at the next visit, and hung on the rack': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.print_part('For several');
    await studio.press('radio', 'Own table');
    const rows = [['Size', 'Back length', 'Neck girth', 'Chest girth', 'Side drop', 'Breast length'],
      ['Puffin', '12 in', '9', '14 1/2', '5', '14'], ['Gannet', '16', '12', '20', '7', '19']];
    const field = studio.control('textbox', 'Own table');
    await field.evaluate((element, text) => {
      const data = new DataTransfer();
      data.setData('text/plain', text);
      element.focus();
      element.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
    }, rows.map((row) => row.join('\t')).join('\r\n') + '\r\n');
    await until(() => studio.control('checkbox', /^Gannet: chest/).isVisible());
    await until(async () => assert.match(await studio.page.locator('#mirror').textContent(), /Puffin/));
    await with_pdf(await studio.save('Measures and nest, PDF'), (pdf) => assert.match(text_of(pdf), /Puffin +Gannet/));
    await with_pdf(await studio.save('Nest, true scale'), (pdf) => assert.equal(pages_of(pdf), 1));
    await studio.press('checkbox', /^Puffin: chest/);
    await with_pdf(await studio.save('Sheets of these, PDF'), (pdf) => {
      const text = text_of(pdf);
      assert.match(text, /Gannet/);
      assert.doesNotMatch(text, /Puffin/);
      const { check_x: [across] } = measured(pdf, 215.9, 279.4, 12.7, 15).pages[0];
      assert.ok(Math.abs(across - 100) <= 0.01, `${across} mm`);
    });
    await studio.page.evaluate(() => window.coatwright.stored());
    await reloaded(studio);
    await studio.print_part('For several');
    await until(() => studio.control('checkbox', /^Gannet: chest/).isVisible());
    assert.equal(await studio.control('radio', 'Own table').getAttribute('aria-checked'), 'true');
    const ticked = (name) => studio.control('checkbox', name).evaluate((box) => box.checked ?? box.getAttribute('aria-checked') === 'true');
    assert.deepEqual([await ticked(/^Puffin: chest/), await ticked(/^Gannet: chest/)], [false, true]);
    await studio.press('button', 'Hang these on the rack');
    await studio.sees('1 ticket hangs on the rack now.');
    await studio.press('button', /^Ticket: /);
    await until(() => studio.control('button', /^Open Gannet/).isVisible());
  },
};
