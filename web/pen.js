// Which of several open windows writes on the rack. One holds the pen, the others follow what it does; when it closes,
// the next one gets the pen by itself. Where the browser has no locks, the window that was opened last writes.
'use strict';

const pen = (() => {
  const NAME = 'coatwright-pen', MOMENT_MS = 500;
  const locks = navigator.locks;
  const channel = 'BroadcastChannel' in window ? new BroadcastChannel(NAME) : null;
  let held = false;
  let listener = { gained() {}, lost() {}, changed() {} };

  // Asks for the lock and keeps it as long as the window lives; whether it was had.
  function ask(options) {
    return new Promise((resolve) => {
      locks.request(NAME, options, (lock) => {
        resolve(lock !== null);
        return lock === null ? undefined : new Promise(() => {});
      }).catch(() => {  // stolen, or not had in time
        resolve(false);
        lose();
      });
    });
  }
  function in_a_moment() {
    const patience = new AbortController();
    setTimeout(() => patience.abort(), MOMENT_MS);
    return patience.signal;
  }
  async function wait_for_it() {
    await ask({});
    if (!held) gain();
  }
  function gain() {
    held = true;
    listener.gained();
  }
  function lose() {
    if (!held) return;
    held = false;
    listener.lost();
    if (locks) wait_for_it();
  }

  if (channel) {
    channel.onmessage = ({ data }) => {
      if (data === 'taken' && !locks) lose();
      else if (data.changed !== undefined && !held) listener.changed(data.changed);
    };
  }

  return {
    // Whether this window has the pen to begin with. A page that is loaded again may still hold it for a moment.
    async start() {
      held = locks ? await ask({ signal: in_a_moment() }) : true;
      if (!held) wait_for_it();
      if (held && !locks && channel) channel.postMessage('taken');
      return held;
    },
    listen: (to) => { listener = to; },
    held: () => held,
    async take() {
      if (held) return;
      if (locks) await ask({ steal: true });
      else if (channel) channel.postMessage('taken');
      gain();
    },
    lose,
    // Tells the windows that follow which ticket was changed.
    tell: (id) => { if (channel) channel.postMessage({ changed: id }); },
  };
})();
