// First of every page's scripts. Another page's frame could lay its own words over the page, and only a server's header
// could forbid it: a page that is made of files says so and does not run. A page that opened this one is let go.
'use strict';

if (window.top !== window.self) {
  const told = document.querySelector('[data-framed]');
  told.textContent = told.dataset.framed;
  document.getElementById('late').hidden = true;
  window.Module = { instantiateWasm: () => ({}) };  // a program that comes all the same is never started
  throw new Error('not shown inside another page');
}
window.opener = null;
