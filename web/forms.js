// The page's side of the press (web/press.js): starts its thread when a form is first asked for, draws the lines that it
// lacks letters for, and saves, shares or prints what it has made.
'use strict';

const forms = (() => {
  const { press: THREAD, pressProgram: PROGRAM } = document.currentScript.dataset;
  const SAVE = 0, SHARE = 1, PRINT = 2;
  // PressEnd of shell/desk/effects.h.
  const MADE = 0, REFUSED = 1, MISSING = 2, BROKEN = 3, WAITS = 4;
  let thread = null, at_work = null, made = null;

  function end(how, sentence = '') {
    at_work = null;
    call('coatwright_pressed', how, sentence);
  }
  // A thread that failed is not asked again: the next order starts another, which may find what this one missed.
  function stop() {
    if (thread) thread.terminate();
    thread = at_work = null;
  }
  function fail(how) {
    stop();
    end(how);
  }

  function hand_out({ name, use }, { file, rules, markup, told }) {
    if (use === PRINT) {
      print_view.prepare(markup, rules);
      print_view.show();
      return end(MADE, told);
    }
    if (use === SAVE) {
      save_file(name, file.type, file);
      return end(MADE, told);
    }
    const shared = new File([file], name, { type: file.type });
    navigator.share({ files: [shared], title: name }).then(() => end(MADE, told), (reason) => {
      // A browser lets a page share within a moment of a press, and the file took longer: it is at hand now.
      if (reason.name === 'NotAllowedError') return end(WAITS);
      return end(MADE, reason.name === 'AbortError' ? '' : told);  // put away without a choice
    });
  }

  function take({ missing, broken, refused, wants, bytes, type, rules, markup, told }) {
    if (!at_work) return;
    if (missing) fail(MISSING);
    else if (broken) fail(BROKEN);
    else if (refused !== undefined) end(REFUSED, refused);
    else if (wants) thread.postMessage({ pictures: wants.map((line) => letters.draw(line.words, line.bold, line.size, line.colour)) });
    else {
      made = { order: at_work.order, file: new Blob([bytes], { type }), rules, markup, told };
      hand_out(at_work, made);
    }
  }

  function ask(bytes, name, use) {
    const order = text_of(bytes);
    if (made && made.order === order) return hand_out({ name, use }, made);
    at_work = { order, name, use };
    try {
      if (!thread) {
        thread = new Worker(THREAD);
        thread.onmessage = ({ data }) => take(data);
        thread.onerror = (event) => { event.preventDefault(); fail(MISSING); };
      }
      thread.postMessage({ order: bytes, program: PROGRAM });
    } catch {
      fail(MISSING);
    }
  }

  const shares_files = () => {
    try {
      return navigator.canShare({ files: [new File([''], 'sheets.pdf', { type: 'application/pdf' })] });
    } catch {
      return false;
    }
  };

  return { SAVE, SHARE, PRINT, ask, stop, shares_files };
})();
