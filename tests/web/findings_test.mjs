// What the studio says about readings that cannot be right, and what it leaves alone meanwhile.
import assert from 'node:assert/strict';

import { devices } from './studio_page.mjs';
import { until } from './studio.mjs';
import { impossible, loose_neck } from './tickets.mjs';

const pieces = (svg) => svg.match(/<path[^>]*data-piece="[^"]*"[^>]*>/g);

export default {
  'a neck taken loosely and low is to be checked, beside its number': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(loose_neck());
    await studio.station('Measure');
    await until(() => studio.has('button', /^Neck girth: 22 in, check this/));
    assert.ok(!await studio.has('button', /^(Back length|Chest girth|Side drop): .*check this/));
    await studio.press('button', 'Neck girth');
    await studio.sees(/^Neck girth is the likeliest mistake: it reads 22 in, and the other readings would expect about 1[5-7]/);
    const field = await studio.box('textbox', 'Neck girth');
    const sentence = await studio.control('status', /^Neck girth is the likeliest/).boundingBox();
    assert.ok(sentence.x < field.x + field.width && field.x < sentence.x + sentence.width, 'in the same column');
    const gap = Math.max(sentence.y - (field.y + field.height), field.y - (sentence.y + sentence.height));
    assert.ok(gap < 140, `${gap} px apart`);
  },

  'with a neck to be checked the coat is drafted all the same': async (visitor) => {
    const studio = await visitor.studio();
    await studio.open_ticket(loose_neck());
    await studio.station('Draft');
    await until(() => studio.has('slider', 'Hem depth, handle on the board'));
  },

  'readings that fit no dog are refused in a sentence at every station, and nothing old can be printed for new': async (visitor) => {
    const studio = await visitor.studio(devices.laptop);
    const before = (await studio.save('Pattern, SVG')).bytes.toString();
    assert.ok(pieces(before).length > 0);
    await studio.open_ticket(impossible());
    for (const station of ['Measure', 'Draft', 'Print']) {
      await studio.station(station);
      await studio.sees(/^Side drop \(22 in\) would pass the middle of the belly/);
    }
    for (const [part, buttons] of [['On paper here', ['Print', 'Save as PDF']], ['Shop or machine', ['One page, PDF', 'Pattern, SVG']], ['To a person', ['Picture, PNG']]]) {
      await studio.print_part(part);
      for (const button of buttons) assert.equal(await studio.control('button', button).isDisabled(), true, button);
    }
    assert.equal((await studio.saved_ticket()).readings.drop[0], '22 in');
    await studio.station('Draft');
    assert.ok(!await studio.has('slider', 'Hem depth, handle on the board'), 'the old draft cannot be dragged');
    await studio.press('button', /^Ticket: /);
    await studio.press('button', /^Open Bosun/);
    await until(() => studio.has('button', /^Ticket: Bosun/));
    await studio.station('Draft');
    await until(() => studio.has('slider', 'Hem depth, handle on the board'));
    assert.deepEqual(pieces((await studio.save('Pattern, SVG')).bytes.toString()), pieces(before));
  },
};
