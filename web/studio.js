// Starts the program and keeps one line of plain words for what went wrong.
'use strict';

const status_line = document.getElementById('status');

function stop_with(sentence) {
  status_line.hidden = false;
  status_line.textContent = sentence;
}

window.addEventListener('error', (event) => {
  stop_with(`Coatwright stopped: ${event.message || 'a file could not be loaded'}. Reload the page to go on.`);
}, true);

// eslint-disable-next-line no-unused-vars -- read by app.js
var Module = {
  canvas: document.getElementById('canvas'),
  postRun: [() => { status_line.hidden = true; document.documentElement.dataset.ready = 'yes'; }],
  onAbort: (reason) => stop_with(`Coatwright stopped: ${reason}. Reload the page to go on.`),
};
