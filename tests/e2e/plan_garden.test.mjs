// What the garden tells and the plan must mind, by the real binary.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, root, scratch, seattle, sowtide } from './support.mjs';

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

describe('a heat mat that has not room for all cells', () => {
  it('holds no more than it takes until the seed is up, and the field comes back from an export', () => {
    const directory = scratch();
    const description = (mat) => `name = "Mat"
${northmere}
[[beds]]
id = "a"
length_m = 6
width_m = 1.2
[[trays]]
id = "t"
cells = 60
cell_width_mm = 70
place = "heat_mat"
temp_c = 22
${mat}
[[wants]]
id = "w"
crop = "tomato"
amount_per_week = 2000
unit = "grams"
from = "07-01"
to = "10-31"
`;
    const plans = ['', 'mat_cells = 4'].map((mat, i) => {
      const file = join(directory, `${i}.toml`);
      writeFileSync(file, description(mat));
      must('new', join(directory, `${i}.sowtide`), '--from', file);
      return mustJson('plan', 'plan', join(directory, `${i}.sowtide`), '--date', '2026-01-05');
    });
    const mostInAWeek = (plan) => {
      const cells = new Map();
      for (const stand of plan.stands) if (stand.tray) cells.set(stand.sow, (cells.get(stand.sow) ?? 0) + stand.cells);
      return Math.max(0, ...cells.values());
    };
    assert.ok(mostInAWeek(plans[0]) > 4, `${mostInAWeek(plans[0])} cells without a limit`);
    assert.ok(mostInAWeek(plans[1]) > 0 && mostInAWeek(plans[1]) <= 4, `${mostInAWeek(plans[1])} cells on a mat for 4`);
    must('export', join(directory, '1.sowtide'), join(directory, 'out'));
    assert.match(readFileSync(join(directory, 'out', 'garden.toml'), 'utf8'), /mat_cells = 4/);
  });
});

describe('a season that is not as planned for', () => {
  it('is told with its figure where it moved a stand, and never where the weather is the same', () => {
    const directory = scratch();
    const toml = join(directory, 'spring.toml');
    writeFileSync(
      toml,
      `name = "Spring"
${northmere}
[[beds]]
id = "a"
length_m = 6
width_m = 1.2
[[wants]]
id = "w1"
crop = "bush-bean"
amount_per_week = 800
unit = "grams"
from = "07-01"
to = "08-15"
[[wants]]
id = "w2"
crop = "radish"
amount_per_week = 300
unit = "grams"
from = "04-15"
to = "06-15"
`,
    );
    const garden = join(directory, 'spring.sowtide');
    must('new', garden, '--from', toml);
    must('plan', garden, '--date', '2026-02-15');
    must('export', garden, join(directory, 'out'));
    const exported = readFileSync(join(directory, 'out', 'garden.toml'), 'utf8');
    assert.match(exported, /planned_c = /);
    const told = (plan) => plan.changes_said.filter((change) => change.some((phrase) => /-than-planned$/.test(phrase.key)));
    assert.equal(told(mustJson('plan', 'plan', garden, '--date', '2026-03-01', '--discard')).length, 0, 'the same weather');
    const colder = join(directory, 'out', 'colder.toml');
    writeFileSync(colder, exported.replace(/^\[site\]$/m, '[site]\nwarming_c = -3'));
    const cold = join(directory, 'cold.sowtide');
    must('new', cold, '--from', colder);
    const said = told(mustJson('plan', 'plan', cold, '--date', '2026-02-15', '--discard'));
    assert.ok(said.length > 0, 'no word of a spring three degrees colder');
    for (const change of said) {
      const phrase = change.find((one) => /-than-planned$/.test(one.key));
      assert.match(phrase.key, /colder/);
      assert.ok(Math.abs(phrase.values.by_k - 3) < 1, `${phrase.values.by_k} °C`);
    }
    assert.match(must('plan', cold, '--date', '2026-02-15', '--discard'), /soil is [23]\.\d °C colder than the \d+ °C planned for/);
  });
});

describe('the effort of a plan', () => {
  it('buys a better plan of the demo garden, and none at all is refused', () => {
    const garden = join(scratch(), 'demo.sowtide');
    must('new', garden, '--from', join(root, 'demo', 'garden.toml'));
    must('weather', garden, 'add', seattle);
    const plan = (effort) => mustJson('plan', 'plan', garden, '--date', '2026-02-15', '--discard', '--effort', effort);
    const [hasty, usual] = ['0.1', '1'].map(plan);
    // What the search makes least: the table's cost and half a serving for the bother of a stand.
    const [worse, better] = [hasty, usual].map((made) => made.objective + 0.5 * made.stands.length);
    assert.ok(better < worse, `${better} for ${worse}`);
    assert.ok(Math.abs(usual.bound - hasty.bound) < 1e-9, 'the bound does not hang on the search');
    assert.equal(sowtide('plan', garden, '--effort', '0').code, 2);
  });
});

describe('the day of setting out', () => {
  const directory = scratch();
  const garden = join(directory, 'out.sowtide');
  const day = '2026-02-20';
  writeFileSync(
    join(directory, 'out.toml'),
    `name = "Out"\n${northmere}
[[beds]]
id = "a"
length_m = 4
width_m = 1.2
[[trays]]
id = "sill"
name = "Sill"
cells = 40
cell_width_mm = 50
place = "indoors"
temp_c = 19
[[wants]]
id = "w"
crop = "tomato"
amount_per_week = 2000
unit = "grams"
from = "07-15"
to = "09-30"
`,
  );

  it('is the same in plan, outlook and nursery', () => {
    must('new', garden, '--from', join(directory, 'out.toml'));
    const plan = mustJson('plan', 'plan', garden, '--date', day, '--time-limit', '20');
    const raised = plan.stands.filter((stand) => stand.tray);
    assert.ok(raised.length > 0);
    const outlooks = mustJson('outlook', 'outlook', garden, '--date', day).stands;
    const nursery = mustJson('nursery', 'nursery', garden, '--date', day).stands;
    for (const { id } of raised) {
      const told = plan.reasons_said[id].find((phrase) => phrase.key === 'goes-out').values;
      const event = outlooks.find((stand) => stand.id === id).events.find((each) => each.name === 'set-out');
      assert.equal(told.set_out, event.p50, id);
      assert.equal(told.set_out, nursery.find((each) => each.stand === id).set_out, id);
      assert.equal(new Date(told.week).getUTCDay(), 1, 'its week by the Monday');
      assert.ok(told.week <= told.set_out);
    }
  });
});
