// Stands put in, listed and moved by hand, by the real binary.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beetWanted, must, mustJson, northmere, scratch, sowtide, standToml } from './support.mjs';

const directory = scratch();
const day = '2026-05-20';

/** Length and width, m, by the id of the bed. */
const bedsToml = (beds) =>
  Object.entries(beds)
    .map(([id, [length, width]]) => `[[beds]]\nid = "${id}"\nlength_m = ${length}\nwidth_m = ${width}\n`)
    .join('');

/** Carrots that are only planned. */
const carrots = (clumps, bed, from_m, to_m, other = {}) =>
  standToml({ id: 's1', crop: 'carrot', sow: '2026-05-25', clumps, plants_per_clump: 1, spacing_mm: 60, bed, from_m, to_m, ...other });

/** A garden file with these beds, and what else its description tells. */
function gardenWith(name, beds, more) {
  const description = join(directory, `${name}.toml`);
  const garden = join(directory, `${name}.sowtide`);
  writeFileSync(description, `name = "${name}"\n${northmere}${bedsToml(beds)}${more}`);
  must('new', garden, '--from', description);
  return garden;
}

const garden = gardenWith('own', { b1: [4, 1.2], b2: [2, 1.2] }, beetWanted);

describe('stand', () => {
  it('puts in what was sown on a whim, in the first free place', () => {
    const first = mustJson('own-stand', 'stand', garden, 'add', 'radish', '--bed', 'b1', '--count', '60', '--date', day);
    assert.deepEqual([first.stand, first.logged, first.from_m], ['s1', 'sown', 0]);
    const second = mustJson('own-stand', 'stand', garden, 'add', 'leek', '--bed', 'b1', '--count', '24', '--bought', '--date', day);
    assert.equal(second.logged, 'set-out');
    assert.ok(second.from_m >= first.to_m);
    const list = must('stand', garden, '--date', day);
    assert.match(list, /s1 +Radish +b1, .* sown/);
    assert.match(list, /s2 +Leek .* 24 .* growing/);
  });

  it('gives no day to what happens in none of the years', () => {
    const late = gardenWith('late', { b1: [4, 1.2] }, carrots(20, 'b1', 0, 1, { crop: 'sweet-corn', sow: '2026-10-20' }));
    const [stand] = mustJson('outlook', 'outlook', late, '--date', '2026-10-01').stands;
    const { p10, p50, p90, probability } = stand.events.find((event) => event.name === 'first-pick');
    assert.deepEqual([p10, p50, p90, probability], [null, null, null, 0]);
  });

  it('keeps them when a plan is made, and their place', () => {
    must('plan', garden, '--date', day, '--time-limit', '20');
    const list = must('stand', garden, '--date', day);
    assert.match(list, /s1 +Radish/);
    assert.match(list, /s2 +Leek/);
  });

  it('moves what was written down wrong only when told so', () => {
    const refused = sowtide('stand', garden, 'move', 's1', '--bed', 'b2', '--from-m', '0.5', '--date', day);
    assert.equal(refused.code, 1);
    assert.match(refused.err, /STAND: .*--put-right/);
    const moved = mustJson('stand-move', 'stand', garden, 'move', 's2', '--bed', 'b2', '--from-m', '0', '--put-right', '--date', day);
    assert.deepEqual([moved.stand, moved.bed, moved.from_m], ['s2', 'b2', 0]);
  });

  it('makes what is only planned give way to what was sown', () => {
    const full = gardenWith('full', { b1: [2, 1.2] }, carrots(400, 'b1', 0, 2));
    const planned = sowtide('stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--day', '2026-05-24', '--date', day);
    assert.equal(planned.code, 1);
    assert.match(planned.err, /has no .* m free/);
    const told = must('stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--date', day);
    assert.match(told, /Planned there and now without room: s1 \(Carrot\)\. Plan anew/);
    const made = mustJson('own-stand', 'stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--date', day);
    assert.deepEqual(made.displaced, [{ stand: 's1', crop: 'carrot', by_hand: false }]);
    const right = mustJson('stand-move', 'stand', full, 'move', 's2', '--from-m', '1', '--put-right', '--date', day);
    assert.deepEqual(right.displaced, [], 'it was on the carrots before');
    const onto = sowtide('stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--from-m', '1', '--date', day);
    assert.match(onto.err, /--from-m: s\d stands there at that time\. Take another stretch, or leave the place out/);
  });

  it('takes back what was put in by mistake, so that nothing of it counts', () => {
    const before = must('stand', garden, '--date', day);
    const made = mustJson('own-stand', 'stand', garden, 'add', 'radish', '--bed', 'b2', '--count', '10', '--date', day);
    must('log', garden, 'counted', made.stand, '--count', '9', '--id', 'seen', '--date', day);
    const refused = sowtide('stand', garden, 'remove', made.stand, '--date', day);
    assert.equal(refused.code, 1);
    assert.match(refused.err, /counted on 2026-05-20 \(entry seen\)\. Take back every other entry of it first/);
    must('log', garden, 'corrected', '--target', 'seen', '--date', day);
    assert.deepEqual(mustJson('stand-gone', 'stand', garden, 'remove', made.stand, '--date', day), { stand: made.stand, removed: true });
    assert.equal(must('stand', garden, '--date', day), before);
    assert.equal(sowtide('stand', garden, 'remove', made.stand, '--date', day).code, 1, 'it is gone');
    must('plan', garden, '--date', day, '--time-limit', '20');
    const next = mustJson('own-stand', 'stand', garden, 'add', 'radish', '--bed', 'b2', '--count', '10', '--date', day);
    assert.notEqual(next.stand, made.stand, 'its name is not given again');
    mustJson('stand-gone', 'stand', garden, 'remove', next.stand, '--date', day);
  });

  it('leaves a planned stand where it was moved by hand, until it is released', () => {
    const beds = '[[beds]]\nid = "sunny"\nlength_m = 3\nwidth_m = 1.2\n[[beds]]\nid = "hedge"\nlength_m = 3\nwidth_m = 1.2\nsun = "shade"\n';
    const moved = gardenWith('moved', {}, `${beds}${beetWanted}`);
    const replan = () => must('plan', moved, '--date', day, '--time-limit', '20', '--effort', '0.1');
    const placeOf = (id) => {
      const stand = mustJson('outlook', 'outlook', moved, '--date', day).stands.find((each) => each.id === id);
      return stand && [stand.bed, stand.from_m, stand.sow];
    };
    replan();
    const planned = mustJson('outlook', 'outlook', moved, '--date', day).stands.find((each) => each.bed === 'sunny');
    const answer = must('stand', moved, 'move', planned.id, '--bed', 'hedge', '--from-m', '0', '--date', day);
    assert.match(answer, new RegExp(`to leave it to the plan again: sowtide stand GARDEN release ${planned.id}`));
    replan();
    assert.deepEqual(placeOf(planned.id), ['hedge', 0, planned.sow], 'no plan puts it into the shade, nor takes it out');
    assert.doesNotMatch(must('stand', moved, 'move', planned.id, '--from-m', '0.2', '--date', day), /release/, 'it is held already');
    replan();
    assert.deepEqual(placeOf(planned.id), ['hedge', 0.2, planned.sow]);
    assert.deepEqual(mustJson('stand-released', 'stand', moved, 'release', planned.id, '--date', day), { stand: planned.id, released: true });
    assert.match(sowtide('stand', moved, 'release', planned.id, '--date', day).err, /was not moved by hand/);
    replan();
    assert.notEqual(placeOf(planned.id)?.[0], 'hedge', 'the plan has it again');
  });

  it('keeps the number of clumps in a bed of another width', () => {
    const beds = { wide: [4, 1.2], narrow: [3, 0.6], half: [4, 0.65], strip: [9, 0.1] };
    const wide = gardenWith('wide', beds, carrots(20, 'half', 3, 3.12));
    const made = mustJson('own-stand', 'stand', wide, 'add', 'leek', '--bed', 'wide', '--count', '24', '--spacing-mm', '300', '--bought', '--date', day);
    assert.equal(made.to_m - made.from_m, 1.8, '24 of them, four across');
    const move = (...more) => ['stand', wide, 'move', made.stand, '--put-right', '--date', day, ...more];
    const refused = sowtide(...move('--bed', 'narrow'));
    assert.equal(refused.code, 1);
    assert.match(refused.err, /--bed: 24 at 30 cm take 3\.60 m of narrow, which is 3\.00 m long\. Take a longer or wider bed/);
    assert.match(sowtide(...move('--bed', 'strip')).err, /strip is 0\.10 m wide, too narrow for plants 30 cm apart/);
    const moved = mustJson('stand-move', ...move('--bed', 'half'));
    assert.deepEqual([moved.bed, moved.from_m, moved.to_m], ['half', 0, 3.6], 'two across');
    assert.deepEqual(moved.displaced, [{ stand: 's1', crop: 'carrot', by_hand: false }]);
  });

  it('speaks of beds, trays and varieties by their names, and of lengths in the units of the garden', () => {
    const named = `units = "us"\n${northmere}[[beds]]\nid = "b1"\nname = "South bed"\nlength_m = 2.4384\nwidth_m = 1.2192\n
[[trays]]\nid = "t1"\nname = "Plug trays"\ncells = 60\ncell_width_mm = 40\nplace = "indoors"\ntemp_c = 19\n
[[varieties]]\nid = "v1"\nname = "Old Red"\ncrop = "lettuce"\n${beetWanted}`;
    const description = join(directory, 'us.toml');
    const us = join(directory, 'us.sowtide');
    writeFileSync(description, `name = "us"\n${named}`);
    must('new', us, '--from', description);
    const add = (...more) => ['stand', us, 'add', 'lettuce', '--bed', 'south bed', '--date', day, ...more];
    assert.match(sowtide(...add('--count', '200', '--bought')).err, /--count: 200 at 11 in take 45 ft 11 in of South bed, which is 8 ft long/);
    assert.match(sowtide(...add('--count', '4', '--bought', '--from-m', '9')).err, /--from-m: 29 ft 6 in to .* does not lie in South bed/);
    assert.match(sowtide(...add('--count', '4', '--bought', '--from', '9')).err, /--from: "9" has no unit, and this garden has US units/);
    assert.match(sowtide(...add('--count', '4', '--bought', '--spacing', '1mm')).err, /--spacing: is .*, must be 0\.4 in to/);
    assert.match(sowtide(...add('--count', '4', '--bought', '--variety', 'Heart')).err, /--variety: there is no variety "Heart"\. Varieties: v1, Old Red/);
    assert.match(sowtide(...add('--count', '4', '--tray', 'sill')).err, /--tray: there is no tray "sill"\. Trays: t1, Plug trays/);
    const placed = must(...add('--count', '4', '--bought', '--from', '1 ft 6 in', '--spacing', '10in', '--variety', 'old red'));
    assert.match(placed, /bought and set out on May 20, South bed, 18 in to 28 in\./);
    assert.match(must('stand', us, '--date', day), /s1 +Lettuce +South bed, /);
  });

  it('tells the day of the log of what is put right', () => {
    const beds = gardenWith('right', { b1: [4, 1.2], b2: [4, 1.2] }, standToml({ id: 's1', crop: 'leek', method: 'start-indoors', sow: '2026-03-20', set_out: '2026-04-19', clumps: 12, plants_per_clump: 1, spacing_mm: 150, bed: 'b1', from_m: 0, to_m: 0.3 }) + beetWanted);
    must('log', beds, 'set-out', 's1', '--count', '12', '--text', 'bought', '--date', day);
    assert.match(must('stand', beds, 'move', 's1', '--bed', 'b2', '--put-right', '--date', '2026-06-01'), /b2, .*, bought and set out 20 May\./);
  });

  it('says what is wrong', () => {
    for (const [args, said] of [
      [['add', 'carrot', '--bed', 'b1', '--count', '5', '--bought'], /does not bear to be set out/],
      [['add', 'radish', '--bed', 'b9', '--count', '5'], /no bed "b9"/],
      [['add', 'cabbage', '--bed', 'b2', '--count', '500'], /2.00 m long/],
    ]) {
      const answer = sowtide('stand', garden, ...args, '--date', day);
      assert.equal(answer.code, 1, args.join(' '));
      assert.match(answer.err, said);
    }
    assert.equal(sowtide('stand', garden, 'add', 'radish', '--bed', 'b1').code, 2);
  });
});
