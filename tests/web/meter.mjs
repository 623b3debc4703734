// Counts what a page draws and how long it takes, from outside: the page knows nothing of it.
//
//   await page.addInitScript(meter);   before the page is opened; with `false` as argument nothing of it reaches the screen,
//                                      whose pixels a machine without a graphics card works out triangle by triangle.
// Then in the page window.meter has
//     frames         frames drawn so far (a frame begins by clearing the whole canvas)
//     first_ms       when the first one was handed to the screen, milliseconds after the page was asked for
//     callbacks      milliseconds that each animation frame's code took, while `timing` is set
//     timing = true  starts that list, and makes what draws do nothing, so that the list holds the page's own code and
//                    not the machine's rasterising, which headless Chromium does without a graphics card
export function meter(drawn = true) {
  const meter = { frames: 0, first_ms: null, timing: false, callbacks: [] };
  Object.defineProperty(window, 'meter', { value: meter });
  const { requestAnimationFrame } = window;
  const pen = WebGL2RenderingContext.prototype;
  const { clear, enable, disable } = pen;
  const idle = () => !drawn || meter.timing;
  const in_part = new Set();  // contexts that draw only within a rectangle now
  pen.enable = function (what) {
    if (what === pen.SCISSOR_TEST) in_part.add(this);
    return enable.call(this, what);
  };
  pen.disable = function (what) {
    if (what === pen.SCISSOR_TEST) in_part.delete(this);
    return disable.call(this, what);
  };
  pen.clear = function (...given) {
    if (!in_part.has(this)) {
      meter.frames += 1;
      if (meter.frames === 1) requestAnimationFrame(() => { meter.first_ms = performance.now(); });
    }
    return idle() ? undefined : clear.apply(this, given);
  };
  for (const name of ['drawElements', 'drawArrays', 'bufferData', 'bufferSubData']) {
    const real = pen[name];
    pen[name] = function (...given) { return idle() ? undefined : real.apply(this, given); };
  }
  window.requestAnimationFrame = (callback) => requestAnimationFrame((now) => {
    const from = performance.now();
    callback(now);
    if (meter.timing) meter.callbacks.push(performance.now() - from);
  });
}
