// What the garden tells and the plan must mind, by the real binary.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, scratch } from './support.mjs';

const clumpsOf = (plan, crop) => plan.stands.filter((stand) => stand.crop === crop).reduce((sum, stand) => sum + stand.clumps, 0);
const phrases = (plan, key) => plan.notes_said.flat().filter((phrase) => phrase.key === key);

describe('what lies in store', () => {
  const directory = scratch();
  const garden = join(directory, 'store.sowtide');
  writeFileSync(
    join(directory, 'store.toml'),
    `name = "Store"
${northmere}
[[beds]]
id = "a"
length_m = 4
width_m = 1.2
[[wants]]
id = "w"
crop = "carrot"
amount_per_week = 500
unit = "grams"
from = "05-01"
to = "09-15"
[[stands]]
id = "s1"
crop = "carrot"
method = "direct-sow"
sow = 2025-06-10
clumps = 400
spacing_mm = 40
bed = "a"
from_m = 0
to_m = 1
`,
  );

  it('counts for the table: fewer carrots are sown, and the plan says what it counts on', () => {
    must('new', garden, '--from', join(directory, 'store.toml'));
    must('log', garden, 'sown', 's1', '--date', '2025-06-10', '--id', 'a1');
    must('log', garden, 'discarded', 's1', '--date', '2026-04-20', '--id', 'a3');
    const full = join(directory, 'full.sowtide');
    copyFileSync(garden, full);
    must('log', full, 'stored', 's1', '--grams', '9000', '--text', 'best', '--target', 'lot1', '--date', '2026-04-20', '--id', 'a2');
    const [without, having] = [garden, full].map((file) => mustJson('plan', 'plan', file, '--date', '2026-05-04', '--discard'));
    assert.ok(clumpsOf(without, 'carrot') > 0);
    assert.ok(clumpsOf(having, 'carrot') < 0.8 * clumpsOf(without, 'carrot'), `${clumpsOf(having, 'carrot')} of ${clumpsOf(without, 'carrot')} clumps`);
    assert.ok(having.objective < without.objective);
    assert.equal(phrases(without, 'store-counted').length, 0);
    const [counted] = phrases(having, 'store-counted');
    assert.ok(counted.values.total_g > 7000 && counted.values.total_g < 9000, `${counted.values.total_g} g`);
    assert.match(must('plan', full, '--date', '2026-05-04', '--discard'), /carrot.* in store count for the table/i);
  });
});
