// Pull or wait by the real binary, and the pictures and trials of the stand page by the real server.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, program, schemaProblems, scratch, sowtide } from './support.mjs';

const directory = scratch();
const garden = join(directory, 'judged.sowtide');
const day = '2026-07-10';

// An invented place and garden: beets in clumps of three, and lettuce that waits for the same ground.
writeFileSync(join(directory, 'garden.toml'), `name = "Judged"
${northmere}[[beds]]
id = "b1"
name = "Long"
length_m = 4
width_m = 1.2
sun = "full"
kind = "raised"
[[wants]]
id = "roots"
crop = "beet"
amount_per_week = 600
unit = "grams"
[[stands]]
id = "s1"
crop = "beet"
method = "direct-sow"
sow = "2026-05-01"
clumps = 30
plants_per_clump = 3
spacing_mm = 240
bed = "b1"
from_m = 0
to_m = 2
[[stands]]
id = "s2"
crop = "lettuce"
method = "direct-sow"
sow = "2026-07-20"
clumps = 20
spacing_mm = 280
bed = "b1"
from_m = 1
to_m = 2
`);

describe('judge', () => {
  before(() => {
    must('new', garden, '--from', join(directory, 'garden.toml'));
    must('log', garden, 'sown', 's1', '--date', '2026-05-01', '--id', 'j-1');
  });

  it('weighs today and one to three weeks on, and says why', () => {
    const [stand] = mustJson('judge', 'judge', garden, 's1', '--date', day).stands;
    assert.deepEqual(stand.options.map((option) => option.weeks), [0, 1, 2, 3]);
    assert.ok(stand.options[3].plant_g.p50 > stand.options[0].plant_g.p50);
    for (const option of stand.options) {
      assert.ok(Math.abs(Object.values(option.classes).reduce((a, b) => a + b, 0) - 1) < 0.01);
    }
    assert.ok(stand.reasons.length >= 2);
    assert.equal(stand.clump.length, 3);
    assert.ok(stand.clump[0].first && stand.clump[0].weight_g.p50 > stand.clump[2].weight_g.p50);
  });

  it('knows what waits for the ground and what the kitchen lacks', () => {
    const [stand] = mustJson('judge', 'judge', garden, 's1', '--date', day).stands;
    assert.equal(stand.next.stand, 's2');
    assert.equal(stand.next.from, '2026-07-20');
    assert.ok(stand.next.loss_g_per_week >= 0);
    assert.equal(stand.options[1].ground_cost_g, 0, 'a week on the ground is not needed yet');
    assert.equal(stand.kitchen.short_g, 600);
    assert.deepEqual(stand.kitchen.wants, ['roots']);
  });

  it('judges all that stand by the log, and names nothing else', () => {
    assert.deepEqual(mustJson('judge', 'judge', garden, '--date', day).stands.map((stand) => stand.stand), ['s1']);
    assert.match(must('judge', garden, '--date', '2026-04-01'), /Nothing stands/);
  });

  it('shifts at once with a weighed sample, and with what was pulled', () => {
    const weight = () => mustJson('judge', 'judge', garden, 's1', '--date', day).stands[0].options[0];
    const before = weight();
    must('log', garden, 'measured', 's1', '--grams', String(Math.round(before.plant_g.p50 * 2)), '--date', day, '--id', 'j-2');
    const heavier = weight();
    assert.ok(Math.abs(heavier.plant_g.p50 / before.plant_g.p50 - 2) < 0.2, `${before.plant_g.p50} to ${heavier.plant_g.p50}`);
    // Ten plants weighed together say the same as one.
    const together = String(10 * Math.round(before.plant_g.p50 * 2));
    must('log', garden, 'measured', 's1', '--grams', together, '--count', '10', '--date', day, '--id', 'j-2b');
    assert.equal(weight().plant_g.p50, heavier.plant_g.p50);
    const refused = sowtide('log', garden, 'measured', 's1', '--grams', '-4', '--count', '10', '--date', day);
    assert.equal(refused.code, 1);
    assert.match(refused.err, /--weight: is -4,/);
    must('log', garden, 'picked', 's1', '--count', '30', '--grams', '900', '--date', day, '--id', 'j-3');
    assert.ok(weight().usable_g < heavier.usable_g);
  });

  it('counts the plants of each size on a day, and refuses one that is not of the stand', () => {
    const [stand] = mustJson('outlook', 'outlook', garden, 's1', '--on', '2026-08-20', '--date', day).stands;
    assert.equal(stand.standing.date, '2026-08-20');
    const plants = stand.standing.sizes.map((size) => size.plants.p50);
    assert.deepEqual([...plants].sort((a, b) => b - a), plants, 'each size holds the larger ones');
    assert.ok(plants[0] > 0);
    const refused = sowtide('outlook', garden, 's1', '--on', '1999-01-01', '--date', day);
    assert.equal(refused.code, 1);
    assert.match(refused.err, /--on: 1999-01-01 lies before the sowing of stand s1 .*Ask for a day from 2026-05-01 to/);
  });

  it('refuses an unknown stand and a day before the sowing', () => {
    assert.equal(sowtide('judge', garden, 's9', '--date', day).code, 1);
    assert.equal(sowtide('judge', garden, 's1', '--date', '2026-04-01').code, 1);
  });
});

describe('the stand page', () => {
  let server;
  let origin;
  before(async () => {
    server = spawn(program, ['serve', garden, '--port', '0', '--date', day]);
    origin = await new Promise((resolve, reject) => {
      let said = '';
      const hear = (chunk) => {
        said += chunk;
        const found = said.match(/http:\/\/[0-9.a-z]+:\d+/);
        if (found) resolve(found[0]);
      };
      server.stdout.on('data', hear);
      server.stderr.on('data', hear);
      server.on('exit', () => reject(new Error(said)));
    });
  });
  after(() => server.kill());

  const get = async (path, schema) => {
    const response = await fetch(origin + path);
    const answer = await response.json();
    assert.equal(response.status, 200, JSON.stringify(answer));
    assert.equal(schemaProblems(schema, answer), '');
    return answer;
  };

  it('draws the clumps by day', async () => {
    const picture = await get('/api/stands/s1/picture?step_days=7&clumps=6', 'stand-picture');
    assert.equal(picture.clumps, 6);
    assert.equal(picture.days[0].date, day);
    assert.equal(picture.days[0].weight_g.length, 6 * picture.plants_per_clump);
    assert.deepEqual(picture.observations.map((each) => each.told), ['weighed', 'weighed'], 'both samples of that day');
  });

  it('tries a pull without writing it down', async () => {
    const before = await get('/api/judge/s1', 'judge');
    const trial = await get('/api/stands/s1/removal?largest_per_clump=1', 'stand-removal');
    assert.ok(trial.taken_plants > 0 && trial.taken_g.p50 > 0);
    assert.ok(trial.rest_gain_g.at(-1).p50 >= 0);
    assert.ok(trial.after.at(-1).standing_plants < trial.before.at(-1).standing_plants);
    assert.deepEqual(await get('/api/judge/s1', 'judge'), before);
    const greens = await get('/api/stands/s1/removal?leaf_share=0.3', 'stand-removal');
    assert.ok(greens.greens_g.p50 > 0 && greens.taken_plants === 0);
  });

  it('answers a bad question with a problem', async () => {
    for (const path of ['/api/judge/s9', '/api/stands/s1/picture?step_days=0', '/api/stands/s1/removal?date=soon']) {
      const response = await fetch(origin + path);
      assert.ok(response.status >= 400 && response.status < 500, path);
      assert.equal(schemaProblems('problem', await response.json()), '');
    }
  });
});
