// node slip_paint.mjs SITE: how soon the slip page is seen and can be filled in, on a slow telephone and a slow network.
// Prints the figures; bench.mjs puts them into its table.
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

import { request } from '../web/slip_codes.mjs';
import { real_devices, launch, serve } from '../web/studio_page.mjs';

const kRounds = 5;
// The profile that browsers call slow 3G: 400 kbit/s each way, 400 ms of latency.
const kSlow3g = { offline: false, latency: 400, downloadThroughput: 50e3, uploadThroughput: 50e3 };

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

async function visit(browser, url, prepare) {
  const context = await browser.newContext(real_devices.phone);
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await prepare(session);
  await page.goto(`${url}slip.html#${request({ note: 'Each one twice, please.' })}`);
  await page.getByRole('button', { name: 'Inches', exact: true }).waitFor();
  // What stands in the document can be found before it has been painted.
  await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint').length > 0);
  const times = await page.evaluate(() => {
    const [document_entry] = performance.getEntriesByType('navigation');
    return { paint: performance.getEntriesByName('first-contentful-paint')[0].startTime, arrived: document_entry.responseEnd, usable: performance.now() };
  });
  await context.close();
  return times;
}

// Milliseconds, medians of visits that have nothing kept.
export async function slip_paint(browser, url) {
  await visit(browser, url, () => {});  // the browser's own start is not the page's
  const rounds = async (prepare) => {
    const all = [];
    for (let round = 0; round < kRounds; round += 1) all.push(await visit(browser, url, prepare));
    return all;
  };
  const throttled = await rounds((session) => session.send('Emulation.setCPUThrottlingRate', { rate: 4 }));
  const slow = await rounds(async (session) => {
    await session.send('Network.enable');
    await session.send('Network.emulateNetworkConditions', kSlow3g);
  });
  return {
    throttled_paint: median(throttled.map((t) => t.paint)),
    throttled_usable: median(throttled.map((t) => t.usable)),
    slow_paint: median(slow.map((t) => t.paint - t.arrived)),
    slow_usable: median(slow.map((t) => t.usable - t.arrived)),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const server = await serve(resolve(process.argv[2]));
  const browser = await launch();
  console.log(JSON.stringify(await slip_paint(browser, server.url)));
  await browser.close();
  server.stop();
}
