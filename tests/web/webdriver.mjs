// Firefox and WebKitGTK by their own remote protocols, for what Playwright's Chromium cannot show: WebDriver (W3C) over
// HTTP, and the same commands over Firefox's Marionette socket, because Debian has no geckodriver. Each browser is a fresh
// one that shares nothing with another; it stands on a virtual screen and goes with the test.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createConnection, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const kPatienceMs = 60000;
const kElement = 'element-6066-11e4-a52e-4f735466cecf';  // the key of an element's id, by the W3C's WebDriver
const pause = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });

// Tries until `work` does not throw.
async function patiently(work, limit_ms = kPatienceMs) {
  for (const end = Date.now() + limit_ms; ;) {
    try {
      return await work();
    } catch (error) {
      if (Date.now() > end) throw error;
    }
    await pause(100);
  }
}

async function free_port() {
  const server = createServer();
  await new Promise((resolve) => { server.listen(0, '127.0.0.1', resolve); });
  const { port } = server.address();
  await new Promise((resolve) => { server.close(resolve); });
  return port;
}

// What was started for a browser, and ends with it.
class Household {
  constructor() {
    this.processes = [];
    this.folder = mkdtempSync(join(tmpdir(), 'coatwright-'));
    this.said = '';
  }
  start(program, args, environment = {}) {
    const child = spawn(program, args, { env: { ...process.env, HOME: this.folder, ...environment }, detached: true,
      stdio: ['ignore', 'pipe', 'pipe', 'pipe'] });
    child.on('error', (error) => { this.said += `${program}: ${error.message}\n`; });
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => { this.said = (this.said + text).slice(-4000); });
    this.processes.push(child);
    return child;
  }
  // A virtual screen with colours and room for a tablet; answers its name.
  async screen() {
    const child = this.start('Xvfb', ['-displayfd', '3', '-screen', '0', '1400x1000x24', '-nolisten', 'tcp']);
    let number = '';
    child.stdio[3].on('data', (text) => { number += text; });
    await patiently(() => { if (!number.endsWith('\n')) throw new Error(`no virtual screen: ${this.said}`); });
    return `:${number.trim()}`;
  }
  async end() {
    for (const child of this.processes.reverse()) {
      try { process.kill(-child.pid); } catch { /* gone already */ }
    }
    await pause(200);
    rmSync(this.folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

// A browser's page, whatever the protocol: `send(command, parameters)` answers the command's value.
class Browser {
  constructor(household, send) {
    Object.assign(this, { household, send });
  }
  goto(url) { return this.send('navigate', { url }); }
  // Runs the function in the page and answers what it returns.
  run(work, ...args) { return this.send('script', { script: `return (${work}).apply(null, arguments);`, args }); }
  async until(work, ...args) {
    return patiently(async () => {
      const answer = await this.run(work, ...args);
      if (!answer) throw new Error(`not so: ${work} ${args}`);
      return answer;
    }, 20000);
  }
  // Typed as a person types, into the field with this style selector.
  async type(selector, text) {
    const element = await this.send('find', { using: 'css selector', value: selector });
    await this.send('type', { id: element[kElement], text });
  }
  async screenshot() { return Buffer.from(await this.send('picture', {}), 'base64'); }
  resize(width, height) { return this.send('resize', { width, height }); }
  // Its page before those that it opened: one that lies behind is not laid out again when the window changes.
  async to_front() {
    const handle = await this.send('window', {});
    await this.send('turn_to', { handle, focus: true });
  }
  async close() {
    await Promise.race([this.send('quit', {}).catch(() => {}), pause(3000)]);
    await this.household.end();
  }
}

// ---- Firefox: Marionette, "LENGTH:[0, number, command, parameters]" over a socket ---------------------------------------

const kMarionette = {
  navigate: 'WebDriver:Navigate', script: 'WebDriver:ExecuteScript', find: 'WebDriver:FindElement', type: 'WebDriver:ElementSendKeys',
  picture: 'WebDriver:TakeScreenshot', resize: 'WebDriver:SetWindowRect', window: 'WebDriver:GetWindowHandle', turn_to: 'WebDriver:SwitchToWindow', quit: 'Marionette:Quit',
};

class Marionette {
  constructor(socket) {
    this.socket = socket;
    this.waiting = new Map();
    this.number = 0;
    let bytes = Buffer.alloc(0);
    socket.on('data', (more) => {
      bytes = Buffer.concat([bytes, more]);
      for (;;) {
        const colon = bytes.indexOf(':'), length = Number(bytes.subarray(0, Math.max(0, colon)).toString());
        if (colon < 0 || bytes.length < colon + 1 + length) return;
        const message = JSON.parse(bytes.subarray(colon + 1, colon + 1 + length).toString());
        bytes = bytes.subarray(colon + 1 + length);
        if (Array.isArray(message)) this.answered(message);
      }
    });
    socket.on('error', () => {});
  }
  answered([, number, error, value]) {
    const { resolve, reject } = this.waiting.get(number) ?? {};
    this.waiting.delete(number);
    if (error) reject?.(new Error(`${error.error}: ${error.message}`));
    else resolve?.(value && 'value' in value ? value.value : value);
  }
  send(command, parameters) {
    this.number += 1;
    const text = JSON.stringify([0, this.number, command, parameters]);
    this.socket.write(`${Buffer.byteLength(text)}:${text}`);
    return new Promise((resolve, reject) => { this.waiting.set(this.number, { resolve, reject }); });
  }
}

// `more`: further settings of it, by their names in about:config.
export async function firefox(more = {}) {
  const household = new Household();
  try {
    const port = await free_port();
    const settings = {
      'marionette.port': port, 'webgl.force-enabled': true, 'browser.shell.checkDefaultBrowser': false, 'app.update.enabled': false,
      'datareporting.policy.dataSubmissionEnabled': false, 'toolkit.telemetry.enabled': false, 'network.captive-portal-service.enabled': false,
      'network.connectivity-service.enabled': false, 'browser.safebrowsing.malware.enabled': false, 'extensions.update.enabled': false, ...more,
    };
    const lines = Object.entries(settings).map(([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});\n`);
    writeFileSync(join(household.folder, 'user.js'), lines.join(''));
    const display = await household.screen();
    household.start('firefox-esr', ['--marionette', '--remote-allow-system-access', '--no-remote', '--profile', household.folder, '--width', '1180', '--height', '900'],
      { DISPLAY: display, MOZ_CRASHREPORTER_DISABLE: '1', LIBGL_ALWAYS_SOFTWARE: '1' });
    const socket = await patiently(() => new Promise((resolve, reject) => {
      const one = createConnection(port, '127.0.0.1', () => resolve(one)).on('error', reject);
    }));
    const marionette = new Marionette(socket);
    await marionette.send('WebDriver:NewSession', {});
    return new Browser(household, (command, parameters) => marionette.send(kMarionette[command],
      command === 'picture' ? { full: false } : parameters));
  } catch (error) {
    await household.end();
    throw new Error(`${error.message}\n${household.said}`);
  }
}

// ---- WebKitGTK: its driver speaks WebDriver over HTTP and starts the browser -----------------------------------------------

const kHttp = {
  navigate: ['POST', 'url'], script: ['POST', 'execute/sync'], find: ['POST', 'element'], type: ['POST', ({ id }) => `element/${id}/value`],
  picture: ['GET', 'screenshot'], resize: ['POST', 'window/rect'], window: ['GET', 'window'], turn_to: ['POST', 'window'], quit: ['DELETE', ''],
};

export async function webkit() {
  const household = new Household();
  try {
    const port = await free_port();
    const display = await household.screen();
    // As root the browser's own sandbox cannot be set up.
    const environment = { DISPLAY: display, GDK_BACKEND: 'x11', LIBGL_ALWAYS_SOFTWARE: '1', NO_AT_BRIDGE: '1', XDG_RUNTIME_DIR: household.folder,
      ...(process.getuid() === 0 ? { WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1' } : {}) };
    household.start('WebKitWebDriver', [`--port=${port}`], environment);
    const ask = async (method, path, body) => {
      const answer = await fetch(`http://127.0.0.1:${port}/session${path}`, { method, body: body && JSON.stringify(body), headers: { Connection: 'close' } });
      const { value } = await answer.json();
      if (!answer.ok) throw new Error(`${value.error}: ${value.message}`);
      return value;
    };
    const binary = `/usr/lib/${readFileSync('/proc/self/maps', 'utf8').match(/\/lib\/(\w+-linux-gnu)\//)?.[1] ?? 'x86_64-linux-gnu'}/webkit2gtk-4.1/MiniBrowser`;
    if (!existsSync(binary)) throw new Error(`there is no ${binary}`);
    const { sessionId } = await patiently(() => ask('POST', '',
      { capabilities: { alwaysMatch: { 'webkitgtk:browserOptions': { binary, args: ['--automation'] } } } }));
    return new Browser(household, (command, parameters) => {
      const [method, path] = kHttp[command];
      const rest = typeof path === 'function' ? path(parameters) : path;
      return ask(method, `/${sessionId}${rest && `/${rest}`}`, method === 'POST' ? parameters : undefined);
    });
  } catch (error) {
    await household.end();
    throw new Error(`${error.message}\n${household.said}`);
  }
}
