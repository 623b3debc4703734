// The page that lights the cutting table, driven as a maker does, and a projector that is made up: a pinhole over the table,
// tilted.
import { until } from './studio.mjs';

export const kWindow = { viewport: { width: 1280, height: 720 }, deviceScaleFactor: 1 };
export const kA2 = [594, 420];

// Table points (mm) to pixels and back, for a lens 1200 mm over the middle of the rectangle, turned about both axes of the table.
export function lamp([wide, high], across_deg, along_deg, { width, height } = kWindow.viewport) {
  const [a, b] = [across_deg, along_deg].map((degrees) => degrees * Math.PI / 180);
  const far = 1200, focus = 1150;
  // Rows of the turn.
  const r = [[Math.cos(b), 0, Math.sin(b)], [Math.sin(a) * Math.sin(b), Math.cos(a), -Math.sin(a) * Math.cos(b)], [-Math.cos(a) * Math.sin(b), Math.sin(a), Math.cos(a) * Math.cos(b)]];
  const to_pixels = ([x, y]) => {
    const [u, v, w] = r.map((row) => row[0] * (x - wide / 2) + row[1] * (y - high / 2));
    return [width / 2 + focus * u / (w + far), height / 2 + focus * v / (w + far)];
  };
  // The ray through the pixel, turned back into the table's axes, cut with the table.
  const to_table = ([px, py]) => {
    const ray = [(px - width / 2) / focus, (py - height / 2) / focus, 1];
    const back = (v) => [0, 1, 2].map((column) => r[0][column] * v[0] + r[1][column] * v[1] + r[2][column] * v[2]);
    const from = back([0, 0, -far]), along = back(ray);
    const t = -from[2] / along[2];
    return [from[0] + t * along[0] + wide / 2, from[1] + t * along[1] + high / 2];
  };
  return { to_pixels, to_table, corners: [[0, 0], [wide, 0], [wide, high], [0, high]].map(to_pixels) };
}

export class Cloth {
  constructor(page) { this.page = page; }
  // Through the studio, as a maker comes.
  static async open(visitor, device = kWindow, before = async () => {}) {
    const studio = await visitor.studio(device);
    await before(studio);
    return Cloth.from(studio);
  }
  static async from(studio) {
    await studio.print_part('On cloth');
    await until(() => studio.control('button', 'Light the cutting table').isEnabled());
    const opening = studio.page.waitForEvent('popup');
    await studio.press('button', 'Light the cutting table');
    const page = await opening;
    await page.waitForFunction(() => document.documentElement.dataset.ready === 'yes', null, { timeout: 30000 });
    const cloth = new Cloth(page);
    cloth.studio = studio;
    return cloth;
  }
  button(name) { return this.page.getByRole('button', { name, exact: typeof name === 'string' }); }
  press(name) { return this.button(name).click(); }
  field(name) { return this.page.getByRole('textbox', { name }); }
  async told(words) { await this.page.locator('[role=status]:visible, [role=alert]:visible').filter({ hasText: words }).first().waitFor(); }
  at() { return this.page.evaluate(() => document.body.dataset.at); }
  async drawn() {
    await this.page.waitForFunction(() => document.getElementById('picture').dataset.drawn);
    let before = '';
    await until(async () => { const now = await this.page.evaluate(() => document.getElementById('picture').dataset.drawn); const same = now === before; before = now; return same; });
  }
  async begin(size) {
    for (const [name, mm] of [['Width, left to right', size[0]], ['Depth, away from you', size[1]]]) await this.field(name).fill(`${mm} mm`);
    await this.press('Fill the screen and set the corners');
    await until(async () => await this.at() === 'set-up');
  }
  pin(n) { return this.page.locator(`#pin-${n}`); }
  async drag_pins(corners) {
    for (const [i, [x, y]] of corners.entries()) {
      const box = await this.pin(i + 1).boundingBox();
      await this.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await this.page.mouse.down();
      await this.page.mouse.move(x - 5, y + 3);
      await this.page.mouse.move(x, y);
      await this.page.mouse.up();
    }
    await this.drawn();
  }
  // The panel is out of the way of what is looked at.
  async bare(look) {
    await this.page.evaluate(() => { for (const id of ['panel', 'pins']) document.getElementById(id).style.visibility = 'hidden'; });
    const seen = await look();
    await this.page.evaluate(() => { for (const id of ['panel', 'pins']) document.getElementById(id).style.visibility = ''; });
    return seen;
  }
  async to_check() {
    await this.press('On to the check');
    await until(async () => await this.at() === 'check');
    await this.drawn();
  }
  async judge(across, along, diagonal) {
    for (const [name, mm] of [['Upper edge', across], ['Left edge', along], ['Diagonal, above left to below right', diagonal]]) await this.field(name).fill(typeof mm === 'number' ? `${mm.toFixed(2)} mm` : mm);
    await this.press('Is it true?');
  }
  // All the way to the coat, measured as true.
  async to_show(light = lamp(kA2, 12, -8)) {
    await this.begin(kA2);
    await this.drag_pins(light.corners);
    await this.to_check();
    const side = await this.side();
    await this.judge(side, side, side * Math.SQRT2);
    await this.told('True within 1 mm');
    await this.press('Show the coat');
    await until(async () => await this.at() === 'show');
    await this.drawn();
  }
  side() { return this.page.evaluate(() => square); }
}
