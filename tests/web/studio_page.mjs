// What every browser test stands on: the built site on a loopback address, headless Chromium, and pages opened on a
// device of the studio's. A page that logs an error, throws, or asks for anything outside the site fails its test.
import { execFileSync } from 'node:child_process';
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';

import { meter } from './meter.mjs';
import { Studio } from './studio.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const playwright_folder = execFileSync('sh', [join(root, 'web/fetch.sh'), 'playwright-core'], { encoding: 'utf8' }).trim();
export const { chromium } = createRequire(import.meta.url)(playwright_folder);

// As they are, for pictures, benches and tests that look at pixels.
export const real_devices = {
  tablet: { viewport: { width: 1180, height: 820 }, deviceScaleFactor: 2, hasTouch: true },
  tablet_upright: { viewport: { width: 820, height: 1180 }, deviceScaleFactor: 2, hasTouch: true },
  laptop: { viewport: { width: 1366, height: 768 }, deviceScaleFactor: 1 },
  phone: { viewport: { width: 390, height: 844 }, deviceScaleFactor: 3, hasTouch: true, isMobile: true },
};
// The smallest that the studio is made for, for pictures: a small phone, a phone on its side, a laptop's page at 200 %.
export const small_devices = {
  small_phone: { viewport: { width: 320, height: 640 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true },
  phone_lying: { viewport: { width: 844, height: 390 }, deviceScaleFactor: 3, hasTouch: true, isMobile: true },
  laptop_doubled: { viewport: { width: 640, height: 400 }, deviceScaleFactor: 2 },
};
// For tests that look at no pixel: with one to a CSS pixel, and the studio's canvas stays empty. It does all but the
// rasterising, which is a third of what a test costs a machine without a graphics card.
export const devices = Object.fromEntries(Object.entries(real_devices).map(([name, device]) => [name, { ...device, deviceScaleFactor: 1, drawn: false }]));
// Such a device with its canvas drawn.
export const drawn = (device) => ({ ...device, drawn: true });

const kinds = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm',
  '.txt': 'text/plain; charset=utf-8', '.json': 'application/json', '.svg': 'image/svg+xml', '.png': 'image/png', '.webmanifest': 'application/manifest+json',
};

export async function serve(site) {
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url, 'http://localhost').pathname);
    let file = join(site, normalize(path));
    if (existsSync(file) && statSync(file).isDirectory()) file = join(file, 'index.html');
    if (!file.startsWith(site) || !existsSync(file)) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'Content-Type': kinds[extname(file)] ?? 'application/octet-stream' });
    createReadStream(file).pipe(response);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { url: `http://127.0.0.1:${server.address().port}/`, stop: () => server.close() };
}

export const kBrowser = '/usr/bin/chromium';
export const kBrowserArguments = () => [
  ...(process.getuid() === 0 ? ['--no-sandbox'] : []),
  '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync',
];

export function launch() {
  return chromium.launch({ executablePath: kBrowser, args: kBrowserArguments() });
}

// Opens pages for one test and remembers what went wrong on them.
export class Visitor {
  constructor(browser, url) {
    this.browser = browser;
    this.url = url;
    this.faults = [];
    this.contexts = [];
  }

  // An empty page in a browser of its own, with empty storage; nothing watches it. Nothing on it moves by itself for
  // longer than it must, as for people who have asked for reduced motion.
  async new_page({ drawn: seen = true, ...device } = devices.tablet) {
    const context = await this.browser.newContext({ reducedMotion: 'reduce', ...device });
    this.contexts.push(context);
    context.setDefaultTimeout(10000);
    await context.addInitScript(meter, seen);
    const page = await context.newPage();
    if (!seen) page.screenshot = () => { throw new Error('nothing is drawn on this device: take drawn(device)'); };
    return page;
  }

  // The studio on a device, opened for the first time, ready and watched. `before` is run in the page ahead of its scripts.
  async studio(device = devices.tablet, before = () => {}) {
    return new Studio(await this.open(device, '', before));
  }

  // The studio, or another page of the site, opened, ready and watched.
  async open(device = devices.tablet, path = '', before = () => {}) {
    const page = await this.new_page(device);
    await page.addInitScript(before);
    page.on('console', (message) => {
      if (message.type() === 'error') this.faults.push(`console: ${message.text()}`);
    });
    page.on('pageerror', (error) => this.faults.push(`uncaught: ${error.message}`));
    page.on('request', (request) => {
      const address = request.url();
      if (!address.startsWith(this.url) && !/^(data|blob):/.test(address)) this.faults.push(`asked for ${address}`);
    });
    await page.goto(this.url + path);
    await page.waitForFunction(() => document.documentElement.dataset.ready === 'yes', null, { timeout: 30000 });
    return page;
  }

  async leave() {
    for (const context of this.contexts) await context.close();
  }
}
