// Between the program and its store: keeps what the program wants kept, one change after the other, reads what it asks
// for, and tells it how safely things are kept. No sentence lives here; states are numbers of shell/rack/keeping.h.
'use strict';

const keeper = (() => {
  const KEPT = { for_good: 1, for_now: 2, nowhere: 3, full: 4 };
  let work = Promise.resolve();
  let kept = KEPT.nowhere;
  let offer = null;        // the browser's own offer to install the page
  let asked = false;       // whether persistent storage was asked for
  let reading_again = false;

  const told = () => call('coatwright_keeping', kept, offer ? 1 : 0);
  // Everything that touches the store stands in one queue, so that what is read is never older than what was kept.
  function next(task) {
    work = work.then(task).catch(() => {});
    return work;
  }
  const stored = async () => JSON.stringify(await store.read());

  async function look_how_safe() {
    const safe = store.available() && navigator.storage && navigator.storage.persisted && await navigator.storage.persisted();
    kept = !store.available() ? KEPT.nowhere : safe ? KEPT.for_good : KEPT.for_now;
  }
  // Asked once there is something worth keeping. A browser may show a question of its own, which stands until somebody
  // answers it: nothing waits for that.
  async function ask_to_persist() {
    if (asked || !navigator.storage || !navigator.storage.persist) return;
    asked = true;
    try {
      await navigator.storage.persist();
      await look_how_safe();
      told();
    } catch { /* as safe as it was */ }
  }

  async function keep_now(change) {
    try {
      await store.keep(change);
      pen.tell();
      if (kept === KEPT.full) {
        await look_how_safe();
        told();
      }
    } catch (error) {
      if (error instanceof store.PenLost) {
        pen.lose();
        return;
      }
      kept = KEPT.full;
      call('coatwright_keep_failed', change.id);
    }
  }

  // The rack as the store has it now, for a window that follows or has just got the pen.
  async function hang_again() {
    reading_again = false;
    const follows = !pen.held();
    if (!follows) await store.take_pen();
    call_with_bytes('coatwright_hang', bytes_of(await stored()), { after: [follows ? 1 : 0] });
  }
  function hang_again_soon() {
    if (reading_again) return;
    reading_again = true;
    next(hang_again);
  }

  window.addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault();
    offer = event;
    told();
  });
  window.addEventListener('appinstalled', () => {
    offer = null;
    asked = false;
    ask_to_persist();
  });

  return {
    // What the store holds, as text; the store, the pen and the program stand ready afterwards.
    async open() {
      const [, held] = await Promise.all([store.open(), pen.start()]);
      try {
        if (held) await store.take_pen();
        return await stored();
      } catch {
        return '{}';
      }
    },
    async begin(text) {
      if (!pen.held()) call_with_bytes('coatwright_hang', bytes_of(text), { after: [1] });
      pen.listen({ gained: hang_again_soon, lost: hang_again_soon, changed: hang_again_soon });
      await look_how_safe();
      told();
      if (!store.available()) call('coatwright_tell', 'ui.not-kept');
      await work;
    },
    keep(change) {
      next(() => keep_now(change));
      if (store.available() && page_state.frames > 1) ask_to_persist();
    },
    send_history(id) {
      next(async () => {
        const text = await store.history(id).catch(() => '');
        call_with_bytes('coatwright_history', bytes_of(text), { before: [id] });
      });
    },
    async install() {
      if (!offer) return;
      await offer.prompt();
      offer = null;
      told();
    },
    settled: () => work,
  };
})();
