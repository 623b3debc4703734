// A browser of its own on a profile of its own, for what cannot be done to the one that all tests share: it is killed, its
// disk is filled.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, openSync, closeSync, rmSync, unlinkSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { Studio } from './studio.mjs';
import { chromium, devices, kBrowser, kBrowserArguments } from './studio_page.mjs';

// A browser of its own on a profile, killed with everything that belongs to it.
export async function start_browser(profile, more = []) {
  const child = spawn(kBrowser, [...kBrowserArguments(), '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`,
    ...more,
    'about:blank'], { detached: true, stdio: ['ignore', 'ignore', 'pipe'] });
  const address = await new Promise((found, failed) => {
    let text = '';
    child.stderr.on('data', (data) => {
      text += data;
      const line = text.match(/DevTools listening on (ws:\S+)/);
      if (line) found(line[1]);
    });
    child.once('exit', () => failed(new Error(`the browser did not start:\n${text}`)));
  });
  const browser = await chromium.connectOverCDP(address);
  const gone = new Promise((done) => { child.once('exit', done); });
  const kill = async () => {
    try { process.kill(-child.pid, 'SIGKILL'); } catch { /* it has ended already */ }
    await gone;
  };
  // Closed as its owner closes it.
  const quit = async () => {
    const session = await browser.newBrowserCDPSession();
    session.send('Browser.close').catch(() => {});  // it ends before it answers
    await gone;
  };
  return { browser, kill, quit };
}

export async function open_studio(browser, url, device = devices.laptop) {
  const context = browser.contexts()[0];
  const page = context.pages()[0] ?? await context.newPage();
  await page.setViewportSize(device.viewport);
  await page.goto(url);
  const studio = new Studio(page);
  await studio.ready();
  return studio;
}

// A disk of its own of so many megabytes, in memory; null where none can be mounted.
export function small_disk(megabytes) {
  const folder = mkdtempSync(join(tmpdir(), 'coatwright-disk-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder], { stdio: 'pipe' });
  } catch (error) {
    rmSync(folder, { recursive: true });
    console.log(`  no disk can be mounted here (${String(error.stderr).trim()}), so none can be filled`);
    return null;
  }
  const ballast = join(folder, 'ballast');
  let filling = 0;
  return {
    folder,
    // To the last byte.
    fill() {
      const file = openSync(ballast, 'a');
      for (const size of [1 << 16, 512, 1]) {
        const block = Buffer.alloc(size);
        try { for (;;) writeSync(file, block); } catch (error) { if (error.code !== 'ENOSPC') throw error; }
      }
      closeSync(file);
    },
    // What the browser gives up is taken at once.
    keep_full() {
      this.fill();
      filling = setInterval(() => this.fill(), 20);
    },
    // What the browser keeps of a kind, as it does itself with what it cannot open.
    throw_away: (kind) => rmSync(join(folder, 'Default', kind), { recursive: true }),
    make_room() {
      clearInterval(filling);
      unlinkSync(ballast);
    },
    take_away() {
      clearInterval(filling);
      execFileSync('umount', ['-l', folder]);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
