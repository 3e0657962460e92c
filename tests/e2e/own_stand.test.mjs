// Stands put in, listed and moved by hand, by the real binary.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, scratch, sowtide } from './support.mjs';

const directory = scratch();
const garden = join(directory, 'own.sowtide');
const day = '2026-05-20';

writeFileSync(join(directory, 'garden.toml'), `name = "Own"
${northmere}[[beds]]
id = "b1"
length_m = 4
width_m = 1.2
[[beds]]
id = "b2"
length_m = 2
width_m = 1.2
[[wants]]
id = "roots"
crop = "beet"
amount_per_week = 300
unit = "grams"
from = "07-01"
to = "10-01"
`);
must('new', garden, '--from', join(directory, 'garden.toml'));

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
    const full = join(directory, 'full.sowtide');
    writeFileSync(join(directory, 'full.toml'), `name = "Full"
${northmere}[[beds]]
id = "b1"
length_m = 2
width_m = 1.2
[[stands]]
id = "s1"
crop = "carrot"
method = "direct-sow"
sow = 2026-05-25
clumps = 400
plants_per_clump = 1
spacing_mm = 60
bed = "b1"
from_m = 0
to_m = 2
`);
    must('new', full, '--from', join(directory, 'full.toml'));
    const planned = sowtide('stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--day', '2026-05-24', '--date', day);
    assert.equal(planned.code, 1);
    assert.match(planned.err, /has no .* m free/);
    const told = must('stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--date', day);
    assert.match(told, /Planned there and now without room: s1 \(Carrot\)\. Plan anew/);
    const made = mustJson('own-stand', 'stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--date', day);
    assert.deepEqual(made.displaced, [{ stand: 's1', crop: 'carrot', by_hand: false }]);
    const onto = sowtide('stand', full, 'add', 'radish', '--bed', 'b1', '--count', '40', '--from-m', '0', '--date', day);
    assert.match(onto.err, /--from-m: s2 stands there at that time\. Take another stretch, or leave --from-m out/);
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
