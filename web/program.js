// Begins to fetch and compile the program before anything else of the page has run; app.js asks for it when it is there.
'use strict';

const program = (async (address) => {
  const missing = (why) => { throw new Error(`${address.split('?')[0]} could not be loaded (${why})`); };
  const answer = await fetch(address, { credentials: 'same-origin' }).catch((error) => missing(error.message));
  if (!answer.ok) missing(answer.status);
  // A host that does not know the type of the file cannot stream it.
  if (answer.headers.get('Content-Type') === 'application/wasm') return WebAssembly.compileStreaming(answer);
  return WebAssembly.compile(await answer.arrayBuffer());
})(document.currentScript.dataset.program);
program.catch(() => {});  // told by whoever waits for it
