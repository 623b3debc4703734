// The browser is killed while a ticket is edited. kill.mjs does it as often as wanted; here a few times.
import assert from 'node:assert/strict';

import { killed_after_leaving, killed_while_editing } from './kill.mjs';

const kTimes = 6;

export default {
  'after the browser was killed at a random moment of editing, the last change that was kept is there': async (visitor) => {
    const figures = await killed_while_editing({ url: visitor.url, times: kTimes, seed: 7 });
    console.log(`  ${JSON.stringify(figures)}`);
    assert.equal(figures.kills, kTimes);
    assert.ok(figures.told_as_kept > kTimes, 'there was something to lose');
    assert.equal(figures.lost, 0);
    assert.equal(figures.torn, 0);
  },

  'after the browser was killed when a page was left, what was typed last is there if it had been written, and nothing is torn': async (visitor) => {
    const figures = await killed_after_leaving({ url: visitor.url, times: 2 * kTimes, seed: 5 });
    console.log(`  ${JSON.stringify(figures)}`);
    assert.equal(figures.kills, 2 * kTimes);
    assert.equal(figures.lost_though_written + figures.older + figures.torn, 0);
    assert.ok(figures.written > kTimes / 2 && figures.kept > kTimes);
  },
};
