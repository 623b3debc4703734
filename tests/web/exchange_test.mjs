// The whole exchange between a studio and a client whose browsers share nothing: the slip's link, the answer that comes
// back, and the draft that follows from it.
import assert from 'node:assert/strict';

import { dog, kAsked } from './exchange.mjs';
import { read_qr } from './qr.mjs';
import { Studio, until } from './studio.mjs';
import { devices, real_devices } from './studio_page.mjs';

const kQr = 'QR code with the link of the slip';

async function link_on_board(studio) {
  await studio.station('Measure');
  await studio.press('button', 'Measuring slip');
  await until(() => studio.has('img', kQr));
  await studio.rest();
  return studio.control('img', kQr).textContent();
}

// What the client does: opens the link on a telephone, measures, and hands on the message.
async function message_from(visitor, link, readings, note = '') {
  assert.ok(link.startsWith(`${visitor.url}slip.html#`), link);
  const page = await visitor.open(devices.phone, link.slice(visitor.url.length));
  await page.getByRole('button', { name: 'Inches', exact: true }).click();
  for (const [name, [first, second]] of Object.entries(readings)) {
    await page.getByRole('heading', { name, level: 2, exact: true }).waitFor();
    await page.getByRole('textbox', { name: 'first time' }).fill(first);
    await page.getByRole('textbox', { name: 'once more' }).fill(second);
    await page.getByRole('button', { name: /^(Next: |Look over)/ }).click();
  }
  await page.getByRole('heading', { name: 'Look over and send' }).waitFor();
  if (note) await page.getByLabel('A note to the studio').fill(note);
  return { page, message: await page.getByRole('textbox', { name: 'The whole message' }).inputValue() };
}
const link_in = (message) => message.split('\n').at(-1);

// A link that is opened where the studio is open already.
const open_link = (studio, link) => studio.page.evaluate((to) => { location.href = to; }, link);

async function asked_and_answered(visitor, { changes = {}, readings = kAsked, note = '' } = {}) {
  const studio = await visitor.studio(devices.tablet);
  await studio.open_ticket(dog(changes));
  const link = await link_on_board(studio);
  const { message } = await message_from(visitor, link, readings, note);
  return { studio, link, message };
}

export default {
  'link, telephone, answer, draft: two browsers that share nothing do the whole exchange': async (visitor) => {
    const studio = await visitor.studio(real_devices.tablet);
    await studio.open_ticket(dog());
    const link = await link_on_board(studio);
    assert.ok(link.length <= 500, `${link.length} bytes`);
    assert.equal(read_qr(await studio.page.screenshot()), link, 'what zbar reads from the tablet’s screen');
    const { page, message } = await message_from(visitor, link, kAsked, 'He moved.');
    assert.notEqual(page.context(), studio.page.context());
    await open_link(studio, link_in(message));
    await studio.sees('Neck girth: not taken on the ticket, 16⅞ in from the client.');
    await studio.sees('He moved.');
    assert.equal(new URL(studio.page.url()).hash, '', 'nothing of it stays in the address');
    assert.ok(!await studio.page.evaluate(() => history.state), 'nor beside it');
    await studio.press('button', 'Take 2 measures');
    await studio.sees('Taken: the client’s readings stand on Bosun');
    const kept = await studio.saved_ticket();
    assert.deepEqual(kept.readings.neck, ['16 3/4 in', '16 7/8 in']);
    assert.deepEqual(kept.readings.loin, ['21 1/2 in', '54,5 cm']);
    assert.match(kept.notes, /He moved\.$/);
    await studio.station('Draft');
    await studio.sees('All measured, all seams close');
    await studio.press('button', 'Undo');
    assert.equal((await studio.saved_ticket()).readings.neck, undefined, 'one step takes it back');
  },

  'an answer opens the studio by its link alone, also when the studio was closed': async (visitor) => {
    const { studio, message } = await asked_and_answered(visitor);
    await until(async () => (await studio.page.evaluate(() => coatwright.stored())) === undefined);
    await studio.page.goto('about:blank');
    await studio.page.goto(link_in(message));
    await studio.ready();
    await studio.sees(/^Neck girth: not taken/);
    assert.equal(new URL(studio.page.url()).hash, '');
    await studio.page.reload();
    await studio.ready();
    assert.ok(!await studio.has('heading', 'Client’s answer'), 'it is not read twice');
  },

  'an answer is pasted on the page, into its field, by the button, and dropped': async (visitor) => {
    const { studio, message } = await asked_and_answered(visitor);
    const seen = () => studio.sees(/^Neck girth: not taken/);
    const away = async () => {
      await studio.press('button', 'Put the answer away');
      await until(async () => !await studio.has('heading', 'Client’s answer'));
    };
    const context = studio.page.context();
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await studio.page.bringToFront();
    await studio.page.evaluate((text) => navigator.clipboard.writeText(text), message);
    await studio.page.keyboard.press('Control+v');
    await seen();
    await away();
    await studio.press('button', 'Client’s answer');
    await studio.sees('paste the whole message here');
    await studio.press('button', 'Paste');
    await seen();
    await away();
    await studio.press('button', 'Client’s answer');
    await until(() => studio.has('textbox', 'Message'));
    await studio.control('textbox', 'Message').focus();
    await studio.page.keyboard.press('Control+v');
    await seen();
    await away();
    await studio.page.evaluate((text) => {
      const data = new DataTransfer();
      data.setData('text/plain', text);
      document.getElementById('canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    }, message);
    await seen();
  },

  'what is damaged, not ours, or comes twice is told in its own sentence': async (visitor) => {
    const { studio, link, message } = await asked_and_answered(visitor);
    const answer = link_in(message);
    const flipped = answer.slice(0, -20) + (answer.at(-20) === 'A' ? 'B' : 'A') + answer.slice(-19);
    for (const [text, sentence] of [
      [answer.slice(0, -15), /^The slip was cut on its way/], [flipped, /^The slip was changed on its way/],
      [`${visitor.url}#top`, /^There is no slip in this text/], [`${visitor.url}#${link.split('#')[1]}`, /^This is the link that asks for readings/],
    ]) {
      await open_link(studio, text);
      await studio.sees(sentence);
    }
    await open_link(studio, `${visitor.url}#${encodeURIComponent(encodeURIComponent(answer))}).`);
    await studio.sees(/^Neck girth: not taken/);
    await studio.press('button', 'Take 2 measures');
    await studio.sees('Taken: ');
    await open_link(studio, answer);
    await studio.sees('there is nothing to take');
    const other = await visitor.studio(devices.laptop);
    await open_link(other, answer);
    await other.sees('No ticket here asked for these readings');
    await other.press('button', 'On a new ticket');
    await until(() => other.has('button', 'Take 2 measures'));
  },

  'links that are opened while another window writes are kept and taken once this one may': async (visitor) => {
    const { studio, message } = await asked_and_answered(visitor);
    await studio.page.evaluate(() => coatwright.stored());
    const writer = await visitor.studio(devices.laptop, () => {
      Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { window.copied = text; } } });
    });
    await writer.open_ticket(dog({ dog: 'Hawser' }));
    await writer.print_part('To a person');
    await writer.press('button', 'Ticket as a link');
    await writer.sees('Copied. Paste it into a message.');
    const ticket_link = await writer.page.evaluate(() => window.copied);

    const page = await studio.page.context().newPage();
    page.on('pageerror', (error) => visitor.faults.push(`uncaught: ${error.message}`));
    await page.goto(ticket_link);
    const second = new Studio(page);
    await second.ready();
    await second.sees(/^Hawser.* waits here, because another window writes on the rack/);
    await open_link(second, link_in(message));
    await second.sees(/^Neck girth: not taken/);
    await second.sees('Another window writes on the rack');
    assert.ok(!await second.control('button', 'Take 2 measures').isEnabled());
    await second.press('button', 'Write here');
    await second.sees('Opened: Hawser');
    await second.sees(/^Neck girth: not taken/);
    await studio.sees('Another window writes on the rack');
    await second.press('button', 'Take 2 measures');
    await second.sees('Taken: the client’s readings stand on Bosun');
    assert.deepEqual((await second.saved_ticket()).readings.neck, ['16 3/4 in', '16 7/8 in']);
    await second.page.evaluate(() => coatwright.stored());
    await second.page.reload();
    await second.ready();
    await second.press('button', /^Ticket: /);
    await until(() => second.has('button', /^Open Hawser/));
    assert.ok(await second.has('button', /^Open Bosun/));
  },

  'the slip is shared, copied and mailed with its link': async (visitor) => {
    const studio = await visitor.studio(devices.tablet, () => {
      window.handed = {};
      navigator.share = async (what) => { window.handed.share = what; };
      Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { window.handed.copy = text; } } });
      HTMLAnchorElement.prototype.click = function () { window.handed.mail = this.href; };
    });
    await studio.open_ticket(dog());
    const link = await link_on_board(studio);
    for (const way of ['Share', 'Copy the link', 'By email']) await studio.press('button', way);
    await studio.sees('Copied. Paste it into a message.');
    const { share, copy, mail } = await studio.page.evaluate(() => window.handed);
    assert.equal(copy, link);
    assert.ok(share.text.includes(link) && share.title === 'Measuring Bosun', JSON.stringify(share));
    const address = new URL(mail);
    assert.equal(address.protocol, 'mailto:');
    assert.ok(address.searchParams.get('body').includes(link));
  },

  'names and notes with markup are text on both sides': async (visitor) => {
    const markup = '<img src=x onerror=alert(1)>';
    const studio = await visitor.studio(devices.tablet);
    const dialogs = (page) => page.on('dialog', (dialog) => { visitor.faults.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
    dialogs(studio.page);
    await studio.open_ticket(dog({ dog: markup }));
    const link = await link_on_board(studio);
    const { page, message } = await message_from(visitor, link, kAsked, '<script>alert(2)</script>');
    dialogs(page);
    await page.getByText(markup).first().waitFor();
    await open_link(studio, link_in(message));
    await studio.sees('<script>alert(2)</script>');
    await studio.sees(`Readings for ${markup}`);
    for (const one of [page, studio.page]) assert.equal(await one.evaluate(() => document.querySelectorAll('img').length), 0);
  },

  'making a slip and taking its answer ask the network for nothing': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await studio.page.evaluate(() => coatwright.kept());
    const asked = [];
    studio.page.on('request', (one) => asked.push(one.url()));
    await studio.open_ticket(dog());
    const link = await link_on_board(studio);
    const { message } = await message_from(visitor, link, kAsked);
    await open_link(studio, link_in(message));
    await studio.sees(/^Neck girth: not taken/);
    await studio.press('button', 'Take 2 measures');
    await studio.sees('Taken: ');
    assert.deepEqual(asked, []);
  },

  'a whole ticket goes to a colleague as a link': async (visitor) => {
    const studio = await visitor.studio(devices.laptop, () => {
      Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { window.copied = text; } } });
    });
    await studio.open_ticket(dog({ dog: 'Hawser', notes: 'Rides the ferry.' }));
    await studio.print_part('To a person');
    await studio.press('button', 'Ticket as a link');
    await studio.sees('Copied. Paste it into a message.');
    const link = await studio.page.evaluate(() => window.copied);
    assert.ok(link.length <= 2000, `${link.length} bytes`);
    const colleague = await visitor.studio(devices.tablet);
    await open_link(colleague, link);
    await colleague.sees(/^Opened: Hawser/);
    assert.deepEqual(await colleague.saved_ticket(), await studio.saved_ticket());
  },

  'the rack shows which slips are out': async (visitor) => {
    const studio = await visitor.studio(devices.tablet);
    await link_on_board(studio);
    await studio.press('button', /^Ticket: /);
    await until(async () => assert.match(await studio.said('button', /^Open Bosun/), /slip out since .* 20\d\d/));
  },
};
