// node screens.mjs SITE DIR [WORDS,WORDS]: writes a picture of every station and state on every device, for people to look at.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

import { Cloth, kA2, lamp } from './cloth.mjs';
import { choose, dog_picture, open_fitting } from './photographs.mjs';
import { answer, request, token_in } from './slip_codes.mjs';
import { Fingers, until } from './studio.mjs';
import { real_devices, small_devices, launch, serve, Visitor } from './studio_page.mjs';
import { backup_file, busy_rack, giant, impossible, loose_neck, of_former_rule, ticket } from './tickets.mjs';

const site = resolve(process.argv[2]);
const folder = resolve(process.argv[3]);
const only = (process.argv[4] ?? '').split(',');
const wanted = (name) => only.some((word) => name.includes(word));

// The crew's dogs, each with a coat that stands in another way.
async function full_rack(studio) {
  for (const one of [
    giant(), loose_neck(), ticket({ dog: 'Hawser', name: 'Gangway coat', measured: '2025-01' }),
    ticket({ dog: 'Purser', name: '', readings: { neck: [], drop: [] } }), impossible(),
    ticket({ dog: 'Skipper of the night ferry', name: 'Rain coat with a long name for winter', birth: '2026-05', measured: '2026-08' }),
  ]) await studio.open_ticket(one);
}

// A backup of the rack, changed on its way and put back.
async function back_again(studio, change = () => {}) {
  await studio.press('button', /^Ticket: /);
  const download = studio.page.waitForEvent('download');
  await studio.press('button', 'Save a backup');
  const backup = JSON.parse(readFileSync(await (await download).path(), 'utf8'));
  change(backup.tickets);
  await studio.put_back(backup_file(backup));
}
async function differing(studio) {
  await full_rack(studio);
  await back_again(studio, (cards) => {
    for (const { ticket: one } of cards.filter((card) => ['Hawser', 'Purser'].includes(card.ticket.dog))) {
      one.readings = { ...one.readings, neck: ['16 7/8 in', '17 in'], chest: ['26 1/2 in'] };
      one.notes = 'Pulls to the left at the quay; the owner wants room for a harness.';
      one.choices = { ...one.choices, collar: 'turned' };
    }
  });
  await until(() => studio.has('heading', 'Put back what differs'));
}

const kQr = 'QR code with the link of the slip';

// A slip for a ticket without a neck girth.
async function asked(studio) {
  await studio.open_ticket(ticket({ readings: { neck: [], drop: [] } }));
  await studio.station('Measure');
  await studio.press('button', 'Measuring slip');
  await until(() => studio.has('img', kQr));
  return studio.control('img', kQr).textContent();
}
// What came back: one measure as it was, one that was wanted, one that no such dog has, one that differs.
async function answered(studio) {
  const token = token_in(await asked(studio));
  const readings = { back: ['22 1/2', '22 5/8'], neck: ['16 3/4', '16 7/8'], chest: ['31', '30 3/4'], drop: ['15 1/2'], breast: ['27 1/8'] };
  const code = answer({ token, readings, note: 'He moved a lot at the chest.' });
  await studio.page.evaluate((fragment) => { location.hash = fragment; }, code);
  await until(() => studio.has('heading', 'Client’s answer'));
}

// Each scene starts on a fresh first visit.
const scenes = {
  'measure': async () => {},
  'measure-keypad': async (studio) => {
    await studio.press('button', 'Chest girth');
    for (const key of ['2', '7', 'Three eighths']) await studio.press('button', key);
  },
  'measure-malformed': async (studio) => {
    await studio.press('button', 'Neck girth');
    await studio.type('16 3/0');
    await studio.press('button', 'Keep');
  },
  'measure-spread': async (studio) => {
    await studio.open_ticket(ticket({ readings: { chest: ['27 1/2 in', '27 3/4 in', '29 3/8 in', '27 5/8 in', '28 in'] } }));
    await studio.station('Measure');
    await studio.press('button', 'Chest girth');
  },
  'measure-check': async (studio) => {
    await studio.open_ticket(loose_neck());
    await studio.station('Measure');
  },
  'measure-check-neck': async (studio) => {
    await studio.open_ticket(loose_neck());
    await studio.station('Measure');
    await studio.press('button', 'Neck girth');
  },
  'measure-throat': async (studio) => {
    await studio.open_ticket(ticket({ readings: { throat: [], 'girth-place': [] } }));
    await studio.station('Measure');
    await studio.press('button', 'Throat to breastbone');
  },
  'measure-girth-place': async (studio) => {
    await studio.station('Measure');
    await studio.press('button', 'Collar to girth tape');
    for (const key of ['6', 'One half']) await studio.press('button', key);
  },
  'measure-refused': async (studio) => {
    await studio.open_ticket(impossible());
    await studio.station('Measure');
  },
  'measure-empty': async (studio) => {
    await studio.open_ticket(ticket({ dog: '', name: '', readings: { back: [], neck: [], chest: [], drop: [], breast: [], loin: [], weight: [] } }));
    await studio.station('Measure');
  },
  'measure-evening': async (studio) => studio.press('button', 'Evening'),
  'fit': async (studio) => studio.station('Fit'),
  'fit-kinds': async (studio) => {
    await studio.station('Fit');
    await studio.press('button', 'Breastbone');
  },
  'fit-amount': async (studio) => {
    await studio.station('Fit');
    await studio.press('button', 'Neck');
    await studio.press('button', 'loose');
  },
  'fit-before': async (studio) => {
    await studio.station('Fit');
    await studio.press('button', 'Tail');
    await studio.press('button', 'too short');
    await studio.press('button', '1');
    await studio.press('button', 'One half');
  },
  'fit-fittings': async (studio) => {
    const seen = (place, kind, by, found) => ({ place, kind, by, found });
    await studio.open_ticket(ticket({ fittings: [
      { date: '2026-11-12', words: 'Stood still after a biscuit.', notes: [seen('neck', 'loose', 'pinch', 15.875), seen('tail', 'short', 'gap', 19.05), seen('hind-leg', 'drags', 'gap', 12.7)] },
      { date: '2026-11-19', notes: [seen('breast', 'tight', 'gap', 12.7), seen('side', 'low', 'gap', 6.35), seen('side', 'high', 'gap', 9.525)] },
    ] }));
    await studio.station('Fit');
    await studio.press('button', /^Fitting 1/);
    await studio.press('button', 'Show what it changed');
  },
  'fit-photograph': async (studio) => {
    const seen = (place, kind, by, found) => ({ place, kind, by, found });
    await studio.open_ticket(ticket({ fittings: [
      { date: '2026-11-12', notes: [seen('neck', 'loose', 'pinch', 15.875), seen('tail', 'short', 'gap', 19.05), seen('hind-leg', 'drags', 'gap', 12.7)] },
    ] }));
    await open_fitting(studio);
    await choose(studio, await dog_picture(studio.page));
    await until(() => studio.has('button', 'Photograph 1'));
    await studio.press('button', 'Photograph 1');
    for (const [pin, keys] of [[/^Pin 1, Neck/, ['ArrowLeft', 'ArrowUp', 'ArrowUp']], [/^Pin 2, Tail/, ['ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowUp']]]) {
      await studio.press('button', pin);
      await until(() => studio.page.evaluate(() => document.activeElement.dataset.id?.startsWith('photo.pin.')));
      for (const key of keys) await studio.page.keyboard.press(`Shift+${key}`);
      await studio.rest();
    }
  },
  'fit-photograph-missing': async (studio) => {
    await studio.open_ticket(ticket({ fittings: [{ notes: [], photographs: [{ id: 'Ph0t-_0a', width: 960, height: 1280 }] }] }));
    await open_fitting(studio);
    await studio.press('button', 'Photograph 1');
    await studio.sees('not in this rack');
  },
  'fit-first': async (studio) => {
    await studio.station('Fit');
    await studio.press('button', 'Begin Fitting 1');
    await until(() => studio.has('button', /^Fitting 1/));
  },
  'draft': async (studio) => studio.station('Draft'),
  'draft-line': async (studio) => {
    await studio.station('Draft');
    const { x, y } = await studio.place_on_hem();
    await studio.page.mouse.click(x, y);
  },
  'draft-drag': async (studio) => {
    await studio.station('Draft');
    const from = await studio.middle('slider', 'Front depth, handle on the board');
    const fingers = await Fingers.on(studio.page);
    await fingers.put(from);
    await fingers.move([{ x: from.x + 30, y: from.y + 24 }]);
  },
  'draft-former-told': async (studio) => {
    await studio.open_ticket(of_former_rule());
    await studio.station('Draft');
    await studio.press('button', 'Put away');
  },
  'draft-former-shown': async (studio) => {
    await scenes['draft-former-told'](studio);
    await studio.press('button', 'Show the old outline');
  },
  'draft-former-evening': async (studio) => {
    await scenes['draft-former-shown'](studio);
    await studio.press('button', 'Evening');
  },
  'draft-former-underpanel': async (studio) => {
    await studio.open_ticket(of_former_rule({ style: 'underpanel', cut: [{ piece: 'body', width: 560, height: 300, area: 120000 }] }));
    await studio.station('Draft');
    await studio.press('button', 'Put away');
  },
  'draft-former-underpanel-shown': async (studio) => {
    await scenes['draft-former-underpanel'](studio);
    await studio.press('button', 'Show the old outline');
  },
  'draft-refused': async (studio) => {
    await studio.open_ticket(impossible());
    await studio.station('Draft');
  },
  'draft-centimetres': async (studio) => {
    await studio.station('Draft');
    await studio.press('button', 'Show centimetres');
  },
  'draft-options': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'stand', opening: 'leash', pocket: 'flap', 'band-closing': 'back' } }));
    await studio.station('Draft');
  },
  'draft-hood': async (studio) => {
    await studio.open_ticket(ticket({ choices: { hood: 'hood', 'front-closing': 'side' } }));
    await studio.station('Draft');
  },
  'draft-strap': async (studio) => {
    await studio.open_ticket(ticket({ style: 'strap' }));
    await studio.station('Draft');
  },
  'draft-underpanel': async (studio) => {
    await studio.open_ticket(ticket({ style: 'underpanel' }));
    await studio.station('Draft');
  },
  // Nothing but the five readings that every coat needs.
  'measure-estimates': async (studio) => {
    await studio.open_ticket(ticket({ readings: { loin: [], underline: [], weight: [] } }));
    await studio.station('Measure');
    await studio.show('button', 'Underline');
  },
  'draft-underpanel-estimates': async (studio) => {
    await studio.open_ticket(ticket({ style: 'underpanel', readings: { loin: [], underline: [], weight: [] } }));
    await studio.station('Draft');
  },
  'draft-hanging-hem': async (studio) => {
    await studio.open_ticket(ticket({ readings: { loin: ['16 1/2 in'] } }));
    await studio.station('Draft');
    await studio.show('slider', 'Hem depth');
  },
  'draft-sheet-options': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned' } }));
    await studio.station('Draft');
    await studio.press('button', /^Collar: /);
    await studio.show('slider', 'Height of the stand');
  },
  'draft-contradiction': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned', hood: 'hood' } }));
    await studio.station('Draft');
    await studio.show('radio', 'turned over');
  },
  'measure-for-hood': async (studio) => {
    await studio.open_ticket(ticket({ choices: { hood: 'hood' } }));
    await studio.station('Measure');
  },
  'print-options': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned', opening: 'leash', pocket: 'patch' }, print: { paper: 'a4' } }));
    await studio.station('Print');
  },
  'draft-evening': async (studio) => {
    await studio.station('Draft');
    await studio.press('button', 'Evening');
  },
  'rack': async (studio) => {
    await full_rack(studio);
    await studio.press('button', /^Ticket: /);
  },
  'rack-deleted': async (studio) => {
    await full_rack(studio);
    await studio.press('button', /^Ticket: /);
    await studio.press('button', /^Delete: Hawser/);
  },
  'rack-nothing': async (studio) => {
    await studio.press('button', /^Ticket: /);
    await studio.press('radio', /^archive /);
  },
  'rack-evening': async (studio) => {
    await full_rack(studio);
    await studio.press('button', 'Evening');
    await studio.press('button', /^Ticket: /);
  },
  'rack-copy': async (studio) => {
    await studio.press('button', /^Ticket: /);
    await studio.press('button', /^Copy: /);
  },
  'rack-thousands': async (studio) => {
    await studio.press('button', /^Ticket: /);
    await studio.put_back(backup_file(busy_rack(5000)));
    await until(async () => (await studio.statuses()).some((text) => /^From the backup came back/.test(text)), 100000);
  },
  'rack-restored-twice': async (studio) => {
    await full_rack(studio);
    await back_again(studio);
    await studio.sees(/^Nothing has changed/);
  },
  'rack-restored-torn': async (studio) => {
    const file = backup_file(busy_rack(40));
    await studio.press('button', /^Ticket: /);
    await studio.put_back(file.subarray(0, Math.floor(file.length * 0.6)));
    await studio.sees(/breaks off before its end/);
  },
  'rack-differs': differing,
  'rack-differs-evening': async (studio) => {
    await studio.press('button', 'Evening');
    await differing(studio);
  },
  'slip-asked': asked,
  'slip-asked-evening': async (studio) => {
    await studio.press('button', 'Evening');
    await asked(studio);
  },
  'slip-answered': answered,
  'slip-answered-evening': async (studio) => {
    await studio.press('button', 'Evening');
    await answered(studio);
  },
  'slip-answer-wanted': async (studio) => {
    await studio.station('Measure');
    await studio.press('button', 'Client’s answer');
  },
  'lay': async (studio) => studio.station('Lay'),
  'lay-cloth': async (studio) => {
    await studio.station('Lay');
    await studio.press('radio', 'Cloth');
  },
  'lay-buy': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned', pocket: 'patch', laminate: 'shell', reflective: 'ring', finish: 'bound' } }));
    await studio.station('Lay');
    await studio.press('radio', 'To buy');
  },
  'lay-many': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned', pocket: 'patch' }, cloths: [{ use: 'shell', name: 'Rain stripe', width: 700, 'one-way': true }] }));
    await studio.station('Lay');
  },
  'lay-stripes': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned' }, cloths: [{ use: 'shell', name: 'Deckchair stripe', width: 1400, repeat: 60, 'repeat-across': 45, 'first-stripe': 30 }] }));
    await studio.station('Lay');
  },
  'lay-quote': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned' }, quote: { currency: '€', wares: [{ kind: 'hook-and-loop', width: 25, price: 6.5 }] } }));
    await studio.station('Lay');
    await studio.press('radio', 'Quote');
  },
  'lay-laminate': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned', laminate: 'shell' } }));
    await studio.station('Lay');
    await studio.press('radio', /^Laminate first/);
  },
  'lay-hand': async (studio) => {
    await studio.station('Lay');
    await studio.rest();
    const fingers = await Fingers.on(studio.page);
    await fingers.put(await studio.middle('button', /^Belly band/));
    await fingers.move([await studio.middle('button', /^Body/)]);
    await fingers.lift();
  },
  'lay-hand-touched': async (studio) => {
    await studio.open_ticket(ticket({ choices: { collar: 'turned', pocket: 'patch' } }));
    await studio.station('Lay');
    await studio.press('button', /^Belly band/);
    await studio.press('button', 'Turn it round');
  },
  'lay-together': async (studio) => {
    await studio.open_ticket(ticket({ dog: 'Hawser', style: 'strap' }));
    await studio.open_ticket(ticket({ dog: 'Skipper of the night ferry', choices: { hood: 'hood' } }));
    await studio.open_ticket(ticket({ dog: 'Gale', choices: { collar: 'turned' } }));
    await studio.station('Lay');
    await studio.press('button', 'Lay other coats with it');
    for (const dog of ['Bosun', 'Hawser', 'Skipper']) await studio.press('button', new RegExp(`^Lay with it: ${dog}`));
    await until(() => studio.has('button', /^Skipper.*: Body/));
    await until(async () => (await studio.statuses()).includes('Laid'), 60000);
  },
  'lay-together-evening': async (studio) => {
    await scenes['lay-together'](studio);
    await studio.press('button', 'Evening');
  },
  'lay-together-list': async (studio) => {
    await scenes['lay-together'](studio);
    await studio.show('button', 'Print diagram and list');
  },
  'lay-hand-evening': async (studio) => {
    await scenes['lay-hand'](studio);
    await studio.press('button', 'Evening');
  },
  'lay-refused': async (studio) => {
    await studio.open_ticket(ticket({ cloths: [{ use: 'shell', width: 300 }] }));
    await studio.station('Lay');
  },
  'print': async (studio) => studio.station('Print'),
  'print-sheet': async (studio) => {
    await studio.station('Print');
    await studio.press('button', /^Sheet /);
  },
  'print-giant': async (studio) => {
    await studio.open_ticket(giant({ paper: 'a4', opened: true }));
    await studio.station('Print');
  },
  'make': async (studio) => studio.station('Make'),
  'make-step': async (studio) => {
    await studio.open_ticket(ticket({ done: ['trial-coat', 'cut-pieces'], choices: { collar: 'turned', pocket: 'patch', reflective: 'ring' } }));
    await studio.station('Make');
    await studio.press('button', /^Edges/);
    await studio.press('button', /^Turn the coat/);
  },
  'make-cut-again': async (studio) => {
    await studio.open_ticket(ticket());
    await studio.station('Make');
    await studio.press('button', /^Cut/);
    await studio.press('checkbox', 'Done: Cut the pieces');
    await studio.open_ticket({ ...await studio.saved_ticket(), readings: { ...ticket().readings, back: ['21 in'] } });
    await studio.station('Make');
    await studio.sees(/since its pieces were cut/);
  },
  'make-evening': async (studio) => {
    await studio.station('Make');
    await studio.press('button', 'Evening');
    await studio.press('button', /^What closes it/);
    await studio.press('button', /^Sew the band on/);
  },
  'make-refused': async (studio) => {
    await studio.open_ticket(impossible());
    await studio.station('Make');
  },
  'print-evening': async (studio) => {
    await studio.station('Print');
    await studio.press('button', 'Evening');
  },
};

// The client's slip, one scene each: what is done on it before the picture.
const slip_scenes = {
  'slip-start': async () => {},
  'slip-measure': async (page) => {
    await page.getByRole('button', { name: 'Inches', exact: true }).click();
    await page.getByRole('textbox', { name: 'first time' }).fill('22 1/2');
  },
  'slip-check': async (page) => {
    await slip_scenes['slip-measure'](page);
    await page.getByRole('textbox', { name: 'once more' }).fill('27');
  },
  'slip-send': async (page) => {
    await slip_scenes['slip-check'](page);
    for (let n = 0; n < 8; n += 1) await page.getByRole('button', { name: /^(Next|Look over)/ }).click();
    await page.getByRole('button', { name: 'Show a QR code' }).click();
  },
};

// The page that lights the cutting table, step by step, on two projectors; and its remote on a phone.
async function lit_table(size, shot) {
  const visitor = new Visitor(browser, server.url);
  const viewport = { width: size[0], height: size[1] };
  const cloth = await Cloth.open(visitor, { viewport, deviceScaleFactor: 1 });
  await shot(cloth.page, 'start');
  await cloth.begin(kA2);
  await cloth.drag_pins(lamp(kA2, 18, -10, viewport).corners);
  await shot(cloth.page, 'set-up');
  await cloth.to_check();
  const side = await cloth.side();
  await cloth.judge(side * 1.01, side, side * Math.SQRT2);
  await cloth.told('Off');
  await shot(cloth.page, 'off');
  await cloth.judge(side, side, side * Math.SQRT2);
  await cloth.told('True');
  await shot(cloth.page, 'true');
  await cloth.press('Show the coat');
  await cloth.press('Next piece');
  await cloth.drawn();
  await shot(cloth.page, 'controls');
  const opening = cloth.page.waitForEvent('popup');
  await cloth.press('Remote');
  const remote = await opening;
  await remote.setViewportSize({ width: 390, height: 844 });
  await until(() => remote.evaluate(() => document.getElementById('remote-piece').textContent !== ''));
  await shot(remote, 'remote');
  await cloth.bare(() => shot(cloth.page, 'projecting'));
  for (const fault of visitor.faults) console.log(`cloth: ${fault}`);
  await visitor.leave();
}

const server = await serve(site);
const browser = await launch();
for (const size of [[1280, 720], [1920, 1080]]) {
  if (!wanted(`cloth-${size.join('x')}`)) continue;
  await lit_table(size, async (page, what) => {
    const name = `cloth-${what}-${size.join('x')}.png`;
    await page.screenshot({ path: join(folder, name) });
    console.log(name);
  });
}
for (const [device_name, device] of Object.entries(real_devices)) {
  for (const [scene_name, scene] of Object.entries(slip_scenes)) {
    const name = `${scene_name}-${device_name.replace('_', '-')}-${device.viewport.width}x${device.viewport.height}`;
    if (!wanted(name)) continue;
    const visitor = new Visitor(browser, server.url);
    const page = await visitor.open(device, `slip.html#${request({ note: 'Each one twice, please.', back: 'deck@harbour.example' })}`);
    await scene(page);
    await page.waitForTimeout(400);  // what is said of a number comes a moment after it
    await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
    console.log(`${name}.png`);
    if (visitor.faults.length > 0) process.exitCode = 1;
    for (const fault of visitor.faults) console.log(`${name}: ${fault}`);
    await visitor.leave();
  }
}
for (const [device_name, device] of Object.entries({ ...real_devices, ...small_devices })) {
  for (const [scene_name, scene] of Object.entries(scenes)) {
    const name = `${scene_name}-${device_name.replace('_', '-')}-${device.viewport.width}x${device.viewport.height}`;
    if (!wanted(name)) continue;
    const visitor = new Visitor(browser, server.url);
    try {
      const studio = await visitor.studio(device);
      await scene(studio);
      await studio.look_away();
      await studio.page.screenshot({ path: join(folder, `${name}.png`) });
      console.log(`${name}.png`);
    } catch (error) {
      visitor.faults.push(error.message);
    }
    if (visitor.faults.length > 0) process.exitCode = 1;
    for (const fault of visitor.faults) console.log(`${name}: ${fault}`);
    await visitor.leave();
  }
}

// The printed pages as pictures, 100 dots an inch.
async function printed(name, what) {
  if (!wanted(`printed-${name}`)) return;
  const scratch = mkdtempSync(join(tmpdir(), 'coatwright-'));
  const visitor = new Visitor(browser, server.url);
  const studio = await visitor.studio(real_devices.laptop);
  if (what) await studio.open_ticket(what);
  const pdf = join(scratch, 'sheets.pdf');
  await studio.print_to(pdf);
  execFileSync('pdftoppm', ['-png', '-r', '100', '-l', '4', pdf, join(folder, `printed-${name}`)]);
  console.log(`printed-${name}-*.png`);
  await visitor.leave();
  rmSync(scratch, { recursive: true });
}
await printed('letter');
await printed('a4-centimetres', ticket({ unit: 'cm', print: { paper: 'a4' } }));
await printed('a0', giant({ paper: 'a0', opened: true }));

await browser.close();
server.stop();
