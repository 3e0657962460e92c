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

describe('the program for another solver', () => {
  it('is named in the answer with its size', () => {
    const directory = scratch();
    const [text, file, model] = ['toml', 'sowtide', 'lp'].map((kind) => join(directory, `model.${kind}`));
    writeFileSync(text, `name = "model"\n${northmere}[[beds]]\nid = "b"\nlength_m = 2\nwidth_m = 1.2\n[[wants]]\nid = "w"\ncrop = "radish"\namount_per_week = 100\nunit = "grams"\nfrom = "05-01"\nto = "06-15"\n`);
    must('new', file, '--from', text);
    const answer = mustJson('plan-model', 'plan', file, '--date', '2026-03-01', '--write-model', model);
    assert.deepEqual(answer, { file: model, bytes: readFileSync(model).length });
    assert.match(sowtide('plan', file, '--threads', '-1').err, /--threads/);
  });
});

describe('what stands in the way of a want', () => {
  const directory = scratch();
  const bed = (length) => `[[beds]]\nid = "b"\nlength_m = ${length}\nwidth_m = 1.2\n`;
  const tray = (cells) => `[[trays]]\nid = "t"\nname = "Sill"\ncells = ${cells}\ncell_width_mm = 40\nplace = "indoors"\ntemp_c = 19\n`;
  const want = (crop, amount, from, to, more = '') => `[[wants]]\nid = "${crop}"\ncrop = "${crop}"\namount_per_week = ${amount}\nunit = "grams"\nfrom = "${from}"\nto = "${to}"\n${more}`;
  const planned = (name, description, day) => {
    const [text, file] = ['toml', 'sowtide'].map((kind) => join(directory, `${name}.${kind}`));
    writeFileSync(text, `name = "${name}"\n${northmere}${description}`);
    must('new', file, '--from', text);
    return mustJson('plan', 'plan', file, '--date', day, '--discard');
  };
  const suppliedOf = (plan) => plan.wants[0].supplied_g;
  const reasons = (plan) => plan.notes_said.filter((note) => note[0].key === 'want-short').map((note) => note[1].key);

  it('is not that it is wanted already: kale of a want that runs is picked when it is ready', () => {
    const later = planned('later', bed(4) + want('kale', 350, '08-01', '12-31'), '2026-06-20');
    const running = planned('running', bed(4) + want('kale', 350, '06-15', '12-31'), '2026-06-20');
    assert.ok(suppliedOf(running) >= 0.9 * suppliedOf(later), `${suppliedOf(running)} g of ${suppliedOf(later)} g`);
    assert.ok(running.stands.every((stand) => !stand.pick_from || stand.pick_from < '2027-03-01'));
  });

  it('is not that it is wanted for a few weeks of winter only', () => {
    const plan = planned('christmas', bed(6) + want('kale', 300, '12-15', '01-31'), '2026-03-01');
    assert.ok(suppliedOf(plan) >= 0.8 * plan.wants[0].wanted_g, `${suppliedOf(plan)} of ${plan.wants[0].wanted_g} g`);
  });

  it('is the season where nothing can be ready, not the beds', () => {
    const plan = planned('winter', bed(3) + tray(60) + want('tomato', 500, '01-01', '03-31'), '2026-03-01');
    assert.deepEqual(reasons(plan), ['not-ready-then']);
  });

  it('is a tray with too few cells for one', () => {
    const plan = planned('few', bed(10) + tray(1) + want('tomato', 500, '07-15', '10-01'), '2026-03-01');
    assert.deepEqual(reasons(plan), ['no-cells-to-raise-it']);
  });

  it('is the cells of the tray where the bed has room, and the worth of more says for whom', () => {
    const plan = planned('cells', bed(10) + tray(12) + want('celery', 3000, '08-01', '10-15'), '2026-03-01');
    assert.deepEqual(reasons(plan), ['cells-taken']);
    const [most] = plan.worths;
    assert.deepEqual(most.said.map((phrase) => phrase.key), ['cells-of-tray', 'helps-want']);
    assert.equal(most.said[1].values.want_id, 'celery');
  });

  it('tells of every stand one more, one fewer, the days beside it, its light and its ground', () => {
    const plan = planned('why', bed(4) + want('beet', 300, '07-01', '09-30'), '2026-03-01');
    assert.ok(plan.stands.length > 0);
    const text = must('plan', join(directory, 'why.sowtide'), '--date', '2026-03-01', '--discard', '--why');
    for (const stand of plan.stands) {
      assert.match(text, new RegExp(`^${stand.id} Beet, .*: .*one clump more would bring .*one fewer would lose`, 'm'));
      const keys = plan.reasons_said[stand.id].map((phrase) => phrase.key);
      for (const one of [/^one-more/, /^one-fewer$/, /^earlier-/, /^later-/, /sun|shade/, /^follows|^first-on-its-ground$/])
        assert.ok(keys.some((key) => one.test(key)), `${stand.id}: ${keys.join(' ')} lacks ${one}`);
    }
  });
});
