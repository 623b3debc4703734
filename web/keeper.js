// Between the program and its store: keeps what the program wants kept, one change after the other, reads what it asks
// for, and tells it how safely things are kept. No sentence lives here; states are numbers of shell/rack/keeping.h.
//
// What the store does not take is the program's to hold: it is told which ticket that was, and asked for it again when the
// store was mended. A store that was closed or cleared is opened again and gets everything that it lacks.
'use strict';

const keeper = (() => {
  const KEPT = { for_good: 1, for_now: 2, nowhere: 3, full: 4, silent: 5, failed: 6, lost: 7, newer: 8 };
  const MOST_AT_ONCE = 200;                        // changes in one transaction
  const PORTION = 100;                             // cards handed over at once
  const FIRST_PAUSE_MS = 2000, LAST_PAUSE_MS = 15000;  // between two tries to mend
  const PARTING_MS = 60;
  const QUICK_MS = 250, MOST_QUICK = 3;            // before a closed store is told as lost
  let work = Promise.resolve();
  let kept = KEPT.nowhere;
  let mine = false;        // this window has written its name into the store
  let was_closed = false;  // since all was well last
  let number = 0;          // of the newest change
  let waiting = [];        // changes for the next transaction
  let on_way = [];         // and those that are not answered yet
  let shaky = false;       // the disk was full while this page was open
  let held_back = null;    // changes for a letter, while one is written
  const missing = new Set();  // ids of what the store has not
  let begun = false;       // the program has all that was stored
  const before = letter.get('pen');  // the window that wrote in the store last, as far as is known without it
  let left = false;        // a letter of this window lies somewhere
  let thrown_away = false; // the store, by a browser without room; what a letter had is back
  let unsent = [];         // letters that the store did not take
  let seen = false;        // the store could be read: what it has is in memory
  let timer = 0, pause = FIRST_PAUSE_MS, quick = 0, mending = false;
  let offer = null;        // the browser's own offer to install the page
  let asked = false;       // whether persistent storage was asked for
  let reading_again = false;

  const told = () => call('coatwright_keeping', kept, offer ? 1 : 0);
  // Everything that touches the store stands in one queue, so that what is read is never older than what was kept.
  function next(task) {
    work = work.then(task).catch(trouble);
    return work;
  }
  // Hands all that is stored to `name`, the cards in portions (read_stored_cards of shell/rack/keep.h), between which the
  // page breathes.
  async function hand_over(name, stored, { more = {}, after = [] } = {}) {
    const lines = [...stored.cards.values()];
    for (let i = 0; i < lines.length; i += PORTION) {
      call_with_bytes('coatwright_stored_cards', bytes_of(lines.slice(i, i + PORTION).join('\0')));
      await breath();
    }
    call_with_bytes(name, bytes_of(JSON.stringify({ ...stored, cards: [], ...more })), { after });
  }

  async function look_how_safe() {
    const safe = navigator.storage && navigator.storage.persisted && await navigator.storage.persisted();
    kept = safe ? KEPT.for_good : KEPT.for_now;
  }
  // Asked once there is something worth keeping. A browser may show a question of its own, which stands until somebody
  // answers it: nothing waits for that.
  async function ask_to_persist() {
    if (asked || !navigator.storage || !navigator.storage.persist) return;
    asked = true;
    try {
      await navigator.storage.persist();
      if (kept > KEPT.for_now) return;
      await look_how_safe();
      told();
    } catch { /* as safe as it was */ }
  }

  // ---- what goes wrong ---------------------------------------------------------------------------------------

  // A full disk has many names: a quota, or a failed write in the words of the browser's own files.
  function why(error) {
    const text = `${error && error.name} ${error && error.message}`;
    if (error instanceof store.Silent) return KEPT.silent;
    if (/VersionError/.test(text)) return KEPT.newer;
    if (/quota|no.?space|disk.{0,4}full/i.test(text)) return KEPT.full;
    return KEPT.failed;
  }
  // The browser has no store for this page, now or ever.
  const denied = (error) => ['SecurityError', 'InvalidStateError', 'TypeError', 'ReferenceError', 'NotSupportedError'].includes(error.name);

  function trouble(error) {
    if (error instanceof store.PenLost) {
      pen.lose();
      return;
    }
    const now = why(error);
    // A browser that clears a store has it shut for a moment.
    if (now === KEPT.failed && was_closed && kept <= KEPT.nowhere && quick < MOST_QUICK) {
      quick += 1;
      timer = timer || setTimeout(mend_now, QUICK_MS);
      return;
    }
    // A store that does not open again, or does not answer, seldom says why: the cause that it gave before stands.
    if (![KEPT.failed, KEPT.silent].includes(now) || ![KEPT.full, KEPT.lost].includes(kept)) kept = now === KEPT.failed && was_closed ? KEPT.lost : now;
    told();
    mend_later();
  }
  async function well() {
    if (missing.size > 0 || waiting.length > 0) return;
    clearTimeout(timer);
    timer = 0;
    pause = FIRST_PAUSE_MS;
    was_closed = false;
    quick = 0;
    if (kept !== KEPT.for_good && kept !== KEPT.for_now) await look_how_safe();
    told();
    tell_thrown_away();
  }
  function tell_thrown_away() {
    if (thrown_away) call('coatwright_tell', 'ui.thrown-away');
    thrown_away = false;
  }
  function mend_later() {
    shaky = shaky || kept === KEPT.full;
    if (timer) return;
    timer = setTimeout(() => { deposit(); mend_now(); }, pause);
    pause = Math.min(2 * pause, LAST_PAUSE_MS);
  }
  function mend_now() {
    clearTimeout(timer);
    timer = 0;
    if (mending) return;
    mending = true;
    next(mend);
  }
  // Opens the store if it is closed, and has the program give again what is not there.
  async function mend() {
    mending = false;
    if (!pen.held()) {
      await hang_again();
      return;
    }
    const closed = !store.available();
    if (closed) await store.open();
    const writer = await store.pen();
    if (writer === undefined) store.forget_torn();
    else if (mine && writer !== store.ME) throw new store.PenLost();
    if (closed || writer !== store.ME) {
      if (writer !== store.ME) await take_over();
      await hand_over('coatwright_join', await store.read());
      seen = true;
    } else {
      call('coatwright_keep_again');
    }
    await well();
  }

  // ---- what is kept ------------------------------------------------------------------------------------------

  function enqueue(change) {
    waiting.push(change);
    on_way.push(change);
    next(write);
  }
  async function write() {
    const batch = waiting.splice(0, MOST_AT_ONCE);
    if (batch.length === 0) return;
    try {
      await store.keep(batch.map(({ keep }) => keep), batch.at(-1).number);
      for (const { keep } of batch) missing.delete(keep.id);
      on_way = on_way.filter((change) => !batch.includes(change));
      for (const { keep } of batch) pen.tell(keep.id);
      deposit();
    } catch (error) {
      on_way = on_way.filter((change) => !batch.includes(change));
      for (const { keep } of batch) {
        missing.add(keep.id);
        call('coatwright_keep_failed', keep.id);
      }
      if (!(error instanceof store.Closed)) throw error;
      was_closed = true;
      mend_now();
    }
    if (missing.size === 0 && (was_closed || kept > KEPT.nowhere)) await well();
    else if (missing.size > 0) mend_later();
    if (left && on_way.length === 0 && missing.size === 0) await forget_letters();
  }

  // The page may be left at any moment. What has no time to be stored any more goes into a letter, and from there into
  // the store at the next start.
  function flush() {
    if (!begun || !pen.held()) return;
    call('coatwright_flush', 0);
    const sent = { by: store.ME, after: before, why: kept, changes: on_way };
    left = on_way.length > 0;
    if (left) store.leave(sent);
    letter.write(sent);
  }

  // A store whose disk was full may be lost when the browser is closed, although it takes changes again: all that hangs here
  // goes into a letter in the cache as well, from the first full moment on.
  function deposit() {
    if (!begun || !pen.held() || !shaky) return;
    held_back = [];
    call('coatwright_flush', 1);
    const changes = [...on_way, ...held_back];
    for (const change of held_back.filter(({ keep }) => !keep.again)) enqueue(change);
    held_back = null;
    letter.deposit({ by: store.ME, after: before, why: KEPT.full, changes });
  }

  async function forget_letters() {
    await store.forget_letter();
    left = !letter.forget_here();
  }

  async function take_pen() {
    await store.take_pen();
    letter.set('pen', store.ME);
    mine = true;
  }
  const letters = async () => letter.read(await store.letter());
  // A letter arrives before this window writes anything.
  async function take_over() {
    const sent = (await letters()).filter(({ by }) => by !== store.ME);
    if (sent.length > 0) {
      const fresh = await store.deliver(sent);
      thrown_away = fresh && sent.some(({ why: cause }) => cause === KEPT.full);
      await letter.forget();
    }
    await take_pen();
  }

  // The rack as the store has it now, for a window that follows or has just got the pen.
  async function hang_again() {
    reading_again = false;
    const follows = !pen.held();
    if (kept === KEPT.nowhere) {
      call_with_bytes('coatwright_hang', bytes_of('{}'), { after: [follows ? 1 : 0] });
      return;
    }
    if (!seen && !follows) {
      await hang_first();
      return;
    }
    if (!store.available()) await store.open();
    const writer = await store.pen();
    // A cleared store is filled by the window that writes.
    if (writer === undefined && follows) return;
    if (writer === undefined) {
      await mend();
      return;
    }
    if (!follows) await take_over();
    await hand_over('coatwright_hang', await store.read(), { after: [follows ? 1 : 0] });
    seen = true;
    missing.clear();
    await well();
  }
  function hang_again_soon() {
    if (reading_again) return;
    reading_again = true;
    next(hang_again);
  }

  // What another window has changed, for this one that follows it.
  function follow(id) {
    if (kept !== KEPT.nowhere) next(async () => {
      if (!pen.held()) call_with_bytes('coatwright_card', bytes_of(await store.card(id)), { before: [id] });
    });
  }

  store.when_closed(() => {
    was_closed = true;
    if (page_state.running) mend_now();
  });
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
  // A browser gives up a change of a page that is gone unless it has got as far as committing it: a page that leaves
  // something behind stays that long.
  window.addEventListener('pagehide', () => {
    flush();
    if (left) for (const end = performance.now() + PARTING_MS; performance.now() < end;);
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') flush();
    else if (kept > KEPT.nowhere) mend_now();
  });

  // ---- the start ---------------------------------------------------------------------------------------------

  // What the store holds, with what letters say that it does not take.
  async function read_store(held) {
    if (held) {
      try {
        await take_over();
      } catch (error) {
        unsent = await letters().catch(() => letter.read());
        kept = why(error);
      }
    }
    const stored = await store.read();
    seen = true;
    return stored;
  }
  const unsent_keeps = () => unsent.flatMap(({ changes }) => changes.map(({ keep }) => keep));
  function with_letters(stored) {
    for (const keep of unsent_keeps()) {
      if (keep.id === '') stored.notes = keep.card;
      else if (keep.card === '') stored.cards.delete(keep.id);
      else stored.cards.set(keep.id, keep.card);
    }
    return stored;
  }
  // The same of a store that may not open: that is told by `closed`, and what the letters have is all there is.
  async function read_if_possible(opening, held) {
    try {
      await opening;
      kept = KEPT.for_now;
      return { stored: with_letters(await read_store(held)), closed: false };
    } catch (error) {
      kept = denied(error) ? KEPT.nowhere : why(error);
      const closed = kept !== KEPT.nowhere;
      if (held && closed) unsent = await letter.read();
      if (kept === KEPT.failed && unsent.some(({ why: cause }) => cause === KEPT.full)) kept = KEPT.full;
      return { stored: with_letters({ notes: '', cards: new Map(), before: '', asides: [] }), closed };
    }
  }
  function miss_unsent() {
    for (const { id } of unsent_keeps()) {
      missing.add(id);
      call('coatwright_keep_failed', id);
    }
    left = unsent.length > 0;
  }
  // The pen came before the store could be read.
  async function hang_first() {
    const { stored, closed } = await read_if_possible(store.available() || store.open(), true);
    await hand_over('coatwright_hang', stored, { more: { closed }, after: [0] });
    miss_unsent();
    await well();
    if (kept <= KEPT.nowhere) return;
    told();
    mend_later();
  }

  return {
    // What the store holds; the store and the pen stand ready afterwards.
    async open() {
      const opening = store.open();
      opening.catch(() => {});
      const held = await pen.start();
      const { stored, closed } = await read_if_possible(opening, held);
      const beside = { mark: letter.get('mark'), half: letter.get('half') };
      letter.set('half', '');
      return { stored, more: kept === KEPT.nowhere ? {} : { ...beside, closed }, held };
    },
    // Starts the program on it.
    async begin({ stored, more, held }) {
      await next(() => hand_over('coatwright_start', stored, { more, after: [held ? 0 : 1] }));
      pen.listen({ gained: hang_again_soon, lost: hang_again_soon, changed: follow });
      if (pen.held() !== held) hang_again_soon();  // since it was read
      miss_unsent();
      begun = true;
      if (kept === KEPT.for_now) await look_how_safe();
      told();
      if (kept === KEPT.nowhere) call('coatwright_tell', 'ui.not-kept');
      tell_thrown_away();
      if (kept > KEPT.nowhere) mend_later();
      await work;
    },
    keep(keep) {
      if (kept === KEPT.nowhere) return;
      const change = { number: number += 1, keep };
      if (held_back) held_back.push(change);
      else enqueue(change);
      if (page_state.frames > 1) ask_to_persist();
    },
    send_history(id) {
      next(async () => {
        if (kept === KEPT.nowhere) return call_with_bytes('coatwright_history', bytes_of(''), { before: [id] });
        try {
          const text = await store.history(id);
          call_with_bytes('coatwright_history', bytes_of(text), { before: [id] });
        } catch (error) {
          call('coatwright_history_unread', id);
          if (!(error instanceof store.Closed)) throw error;
          was_closed = true;
          mend_now();
        }
      });
    },
    async install() {
      if (!offer) return;
      await offer.prompt();
      offer = null;
      told();
    },
    keeps: () => kept !== KEPT.nowhere,
    settled: () => work,
  };
})();
