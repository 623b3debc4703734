// The browser is killed while a ticket is edited. kill.mjs does it as often as wanted; here a few times.
import assert from 'node:assert/strict';

import { killed_while_editing } from './kill.mjs';

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
};
