// Letters of every script: lines that the program's own typefaces lack are set and drawn by the browser, which has the
// letters, shapes and joins them, and knows which way they run. Sizes are what the program says, in device pixels.
'use strict';

const letters = (() => {
  const AROUND = 2, MOST = 4096;  // px: margin on every side, and the longest side of a line
  const RIGHT_TO_LEFT = /^\P{L}*[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
  const pen = document.createElement('canvas').getContext('2d', { willReadFrequently: true });

  function set(text, bold, size) {
    pen.font = `${bold ? 600 : 400} ${size}px Coatwright, system-ui, sans-serif`;
    pen.direction = RIGHT_TO_LEFT.test(text) ? 'rtl' : 'ltr';
    pen.textAlign = 'left';
  }
  // A letter and an accent that was typed behind it are one letter, which the program's faces may have.
  const whole = (text) => text.normalize('NFC');
  function width(text, bold, size) {
    set(text, bold, size);
    return pen.measureText(whole(text)).width;
  }
  // Characters as readers see them: a letter with its accents, a family of emoji.
  function characters(text) {
    if (!Intl.Segmenter) return text.match(/\P{M}\p{M}*/gu) || [];
    return Array.from(new Intl.Segmenter().segment(text), (part) => part.segment);
  }
  function fitting(text, bold, size, room) {
    set(text, bold, size);
    let fits = '';
    for (const one of characters(text)) {
      if (pen.measureText(whole(`${fits}${one}…`)).width > room) break;
      fits += one;
    }
    return bytes_of(fits).length;
  }
  function draw(typed, bold, size, colour) {
    const text = whole(typed);
    set(text, bold, size);
    const ink = pen.measureText(text);
    const left = Math.floor(-ink.actualBoundingBoxLeft) - AROUND, top = Math.floor(-ink.actualBoundingBoxAscent) - AROUND;
    const side = (end, from) => Math.max(1, Math.min(MOST, Math.ceil(end) + AROUND - from));
    pen.canvas.width = side(ink.actualBoundingBoxRight, left);
    pen.canvas.height = side(ink.actualBoundingBoxDescent, top);
    set(text, bold, size);
    pen.fillStyle = colour;
    pen.fillText(text, -left, -top);
    const { data, width: w, height: h } = pen.getImageData(0, 0, pen.canvas.width, pen.canvas.height);
    return { frame: [left, top, w, h], pixels: data };
  }
  // The program's own faces, so that Latin letters beside others look as they do elsewhere.
  function take(bytes, weight, then) {
    const face = new FontFace('Coatwright', bytes, { weight });
    document.fonts.add(face);
    face.load().then(then, () => {});  // refused: the browser's own letters do
  }

  return { width, fitting, draw, take };
})();
