// The seed box, the nursery, overdue sowings and emergence in real weather, by the real binary.
import assert from 'node:assert/strict';
import { before, describe, it } from 'node:test';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, scratch, seattle, sowtide } from './support.mjs';

const directory = scratch();
const garden = join(directory, 'seed.sowtide');

// An invented place and garden.
writeFileSync(join(directory, 'garden.toml'), `name = "Seedbed"
${northmere}[[beds]]
id = "b1"
name = "Long"
length_m = 6
width_m = 1.2
sun = "full"
kind = "raised"
[[trays]]
id = "sill"
name = "Window sill"
cells = 40
cell_width_mm = 50
place = "indoors"
temp_c = 19
[[packets]]
id = "p1"
crop = "carrot"
packed_year = 2024
seeds = 500
germination_pct = 80
[[stands]]
id = "s1"
crop = "carrot"
method = "direct-sow"
sow = "2026-05-01"
clumps = 60
plants_per_clump = 1
spacing_mm = 110
bed = "b1"
from_m = 0
to_m = 1
cells = 60
seeds_per_cell = 2
[[stands]]
id = "s2"
crop = "tomato"
method = "start-indoors"
sow = "2026-04-05"
clumps = 4
plants_per_clump = 1
spacing_mm = 600
bed = "b1"
from_m = 2
to_m = 4
tray = "sill"
cells = 6
seeds_per_cell = 1
`);

before(() => must('new', garden, '--from', join(directory, 'garden.toml')));

describe('seed', () => {
  it('tells what the packet is worth and what is to buy', () => {
    const answer = mustJson('packets', 'seed', garden, '--date', '2026-03-01');
    const [packet] = answer.packets;
    assert.equal(packet.id, 'p1');
    assert.ok(packet.germination_pct.mean < 80 && packet.germination_pct.mean > 40);
    assert.ok(packet.planned_seeds >= 60);
    const tomato = answer.needs.find((need) => need.crop === 'tomato');
    assert.ok(tomato.buy.seeds >= 4, 'no packet of tomato: all of it is to buy');
    assert.equal(answer.needs.find((need) => need.crop === 'carrot').buy, null);
    assert.match(must('seed', garden, '--date', '2026-03-01'), /p1/);
  });

  it('takes a home test, and refuses one that does not say of how many', () => {
    const before = mustJson('packets', 'seed', garden, '--date', '2026-03-02').packets[0].germination_pct.mean;
    must('log', garden, 'tested', '--target', 'p1', '--count', '3', '--text', 'of 20', '--date', '2026-03-02', '--id', 'test-1');
    const tested = mustJson('packets', 'seed', garden, '--date', '2026-03-02').packets[0];
    assert.ok(tested.germination_pct.mean < before - 15);
    assert.deepEqual(tested.tests, [{ date: '2026-03-02', sown: 20, came_up: 3 }]);
    assert.equal(sowtide('log', garden, 'tested', '--target', 'p1', '--count', '3', '--date', '2026-03-02').code, 1);
    assert.equal(sowtide('log', garden, 'tested', '--target', 'p9', '--count', '3', '--text', 'of 9', '--date', '2026-03-02').code, 1);
    assert.equal(sowtide('log', garden, 'tested', '--target', 'p1', '--count', '11', '--text', 'of 10', '--date', '2026-03-02').code, 1);
  });

  it('keeps home tests through export and import', () => {
    const copy = join(directory, 'export');
    must('export', garden, copy);
    const again = join(directory, 'again.sowtide');
    must('new', again, '--from', join(copy, 'garden.toml'));
    assert.deepEqual(mustJson('packets', 'seed', again, '--date', '2026-03-05').packets, mustJson('packets', 'seed', garden, '--date', '2026-03-05').packets);
  });
});

describe('a packet past its time', () => {
  const old = join(directory, 'old.sowtide');
  const day = '2026-05-01';
  const left = () => mustJson('packets', 'seed', old, '--date', '2026-05-02').packets[0].seeds_left;
  before(() => {
    const toml = readFileSync(join(directory, 'garden.toml'), 'utf8');
    writeFileSync(join(directory, 'old.toml'), toml.replace('packed_year = 2024', 'packed_year = 2004'));
    must('new', old, '--from', join(directory, 'old.toml'));
  });

  it('is not told of where nothing is sown from it', () => {
    const sow = mustJson('today', 'today', old, '--date', day).tasks.find((task) => task.kind === 'sow' && task.stand === 's1');
    assert.doesNotMatch(sow.reason, /packet/);
    const need = mustJson('packets', 'seed', old, '--date', day).needs.find((each) => each.crop === 'carrot');
    assert.equal(need.covered_seeds, 0);
    assert.ok(need.buy.seeds >= 120, 'never fewer than the plan sows');
  });

  it('gives only seeds that the log says were taken from it', () => {
    must('log', old, 'sown', 's1', '--count', '100', '--date', day);
    assert.equal(left(), 500);
    assert.match(must('log', old, 'sown', 's1', '--count', '30', '--packet', 'p1', '--date', day), /sown s1 Carrot, from packet p1, 30 seeds/);
    assert.equal(left(), 470);
  });

  it('is refused where it is none or of another crop', () => {
    assert.match(sowtide('log', old, 'sown', 's1', '--packet', 'p9', '--date', day).err, /--packet: there is no packet "p9"/);
    assert.match(sowtide('log', old, 'sown', 's2', '--packet', 'p1', '--date', day).err, /--packet: packet "p1" is of carrot, and stand s2 is tomato/);
    assert.match(sowtide('log', old, 'picked', 's1', '--packet', 'p1', '--date', day).err, /--packet: is of sown and tested, not of picked/);
  });
});

describe('nursery', () => {
  it('shows the trays week by week', () => {
    const answer = mustJson('nursery', 'nursery', garden, '--date', '2026-04-01');
    assert.equal(answer.stands.length, 1);
    const [tomato] = answer.stands;
    assert.ok(tomato.up.p50 > '2026-04-05' && tomato.set_out > tomato.up.p50);
    assert.ok(tomato.late_cost.length === 5 && tomato.late_cost[4].harvest_g < tomato.late_cost[0].harvest_g);
    const kinds = answer.weeks.flatMap((week) => week.tasks.map((task) => task.kind));
    for (const kind of ['sow', 'look', 'harden-off', 'set-out']) assert.ok(kinds.includes(kind), kind);
    assert.ok(answer.weeks.some((week) => week.use.some((use) => use.cells === 6)));
    assert.match(must('nursery', garden, '--date', '2026-04-01'), /Window sill/);
  });
});

describe('a sowing that does not show', () => {
  it('is waited for, then looked for, then overdue with a last day for sowing again', () => {
    must('log', garden, 'sown', 's1', '--date', '2026-05-01', '--id', 'sown-1');
    const on = (date) => mustJson('outlook', 'outlook', garden, 's1', '--date', date).stands[0].overdue;
    assert.equal(on('2026-05-03').state, 'waiting');
    const late = on('2026-06-10');
    assert.equal(late.state, 'overdue');
    assert.ok(late.half_by > '2026-05-05' && late.half_by < '2026-06-10');
    assert.ok(late.re_sow.by > '2026-06-10');
    const tasks = (date) => mustJson('today', 'today', garden, '--date', date).tasks;
    const look = tasks('2026-06-10').find((task) => task.kind === 'check-emergence' && task.stand === 's1');
    assert.match(look.reason, /should be up since/);
    assert.equal(tasks('2026-06-10').find((task) => task.kind === 're-sow'), undefined);
    must('log', garden, 'counted', 's1', '--count', '0', '--date', '2026-06-10', '--id', 'none-1');
    assert.ok(tasks('2026-06-10').some((task) => task.kind === 're-sow' && task.stand === 's1'));
    must('log', garden, 'counted', 's1', '--count', '70', '--date', '2026-06-11', '--id', 'up-1');
    assert.equal(on('2026-06-12'), undefined);
  });
});

describe('figure emergence in weather', () => {
  const days = (...inputs) => mustJson('figure', 'figure', 'emergence', 'crop=beet', ...inputs).result;
  it('is slower in March than in June, and slower deep than shallow', () => {
    const march = days(`weather=${seattle}`, 'date=2014-03-15', 'depth_mm=13');
    const june = days(`weather=${seattle}`, 'date=2014-06-15', 'depth_mm=13');
    const deep = days(`weather=${seattle}`, 'date=2014-03-15', 'depth_mm=60');
    assert.ok(march.days > june.days + 3, `${march.days} ${june.days}`);
    assert.ok(deep.days > march.days);
    assert.ok(march.p10 <= march.days && march.days <= march.p90);
    assert.ok(march.date_of_half > '2014-03-15');
  });
  it('works for a built-in place, and names what is missing', () => {
    assert.ok(days('place=Olympia WA', 'date=2026-05-01').days > 3);
    assert.equal(sowtide('figure', 'emergence', 'crop=beet', 'place=Olympia WA').code, 1);
    assert.equal(sowtide('figure', 'emergence', 'crop=beet').code, 1);
    assert.equal(sowtide('figure', 'emergence', 'crop=beet', `weather=${seattle}`, 'date=1950-01-01').code, 1);
  });
});
