// A garden looked at years after, or years before, what stands in it, by the real binary.
import assert from 'node:assert/strict';
import { before, describe, it } from 'node:test';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beetWanted, must, mustJson, northmere, scratch, sowtide, standToml } from './support.mjs';

const directory = scratch();
const garden = join(directory, 'years.sowtide');

const stand = (id, crop, sow, from_m) =>
  standToml({ id, crop, sow, clumps: 30, spacing_mm: 150, bed: 'b1', from_m, to_m: from_m + 1 });

const description = (...stands) => `name = "Years"
${northmere}[[beds]]
id = "b1"
name = "Long"
length_m = 6
width_m = 1.2
${beetWanted}${stands.join('')}`;

function make(path, ...stands) {
  writeFileSync(`${path}.toml`, description(...stands));
  return sowtide('new', path, '--from', `${path}.toml`);
}

/** What is asked of a garden on any day. */
function lives(path, date) {
  const outlook = mustJson('outlook', 'outlook', path, '--date', date);
  mustJson('today', 'today', path, '--date', date);
  must('outlook', path, '--date', date);
  for (const each of outlook.stands) must('outlook', path, each.id, '--date', date);
  must('print', path, 'season', '--out', join(directory, 'season.pdf'), '--date', date);
  return outlook;
}

describe('a garden lives on', () => {
  before(() => {
    assert.equal(make(garden, stand('s1', 'beet', '2026-05-01', 0), stand('s2', 'beet', '2026-05-01', 1)).code, 0);
    must('stand', garden, 'add', 'lettuce', '--bed', 'b1', '--count', '12', '--bought', '--date', '2026-05-01');
    must('log', garden, 'picked', 's3', '--grams', '900', '--count', '4', '--date', '2026-06-20');
    must('log', garden, 'discarded', 's3', '--date', '2026-08-01');
    must('log', garden, 'counted', 's1', '--count', '28', '--date', '2026-05-20');
  });

  for (const date of ['2026-12-31', '2027-01-01', '2029-01-01', '2035-06-01']) {
    it(`on ${date}, with a bought stand that is over and one that was only counted`, () => {
      const { stands } = lives(garden, date);
      assert.equal(stands.find((each) => each.id === 's3').state, 'finished');
      assert.ok(stands.every((each) => each.no_outlook === undefined));
    });
  }

  it('and takes new stands', () => {
    must('stand', garden, 'add', 'radish', '--bed', 'b1', '--count', '20', '--date', '2027-04-10');
  });

  it('years before a stand, which says itself that no outlook reaches it', () => {
    const { stands } = lives(garden, '2019-01-01');
    assert.match(stands[0].no_outlook.what, /s1 is to be sown on 2026-05-01, and no outlook reaches beyond 2025-12-31/);
    assert.match(must('outlook', garden, 's1', '--date', '2019-01-01'), /No outlook: stand s1 is to be sown on 2026-05-01/);
  });
});

describe('a day that no outlook reaches to', () => {
  it('is refused where a garden is made, with its line', () => {
    const done = make(join(directory, 'far.sowtide'), stand('s1', 'beet', '2050-05-01', 0));
    assert.equal(done.code, 1);
    assert.match(done.err, /far\.sowtide\.toml:\d+.*stands\[0\]\.sow.*2050-05-01 is later than 2\d{3}-12-31/);
  });

  it('is refused where a stand is put in', () => {
    const done = sowtide('stand', garden, 'add', 'radish', '--bed', 'b1', '--count', '20', '--day', '2050-05-01', '--date', '2027-04-10');
    assert.equal(done.code, 1);
    assert.match(done.err, /2050-05-01/);
  });
});

describe('a sowing that was taken back', () => {
  const path = join(directory, 'ghost.sowtide');
  const planned = (date) => mustJson('outlook', 'outlook', path, '--date', date).stands;

  before(() => assert.equal(make(path).code, 0));

  it('leaves a planned stand, which the next plan moves or does without', () => {
    must('plan', path, '--date', '2026-04-01', '--time-limit', '5');
    const [first] = planned('2026-04-01');
    must('log', path, 'sown', first.id, '--count', '40', '--date', '2026-04-02', '--id', 'slip');
    must('log', path, 'corrected', '--target', 'slip', '--date', '2026-04-02');
    assert.equal(planned('2026-04-03').find((each) => each.id === first.id).state, 'planned');
    const plan = mustJson('plan', 'plan', path, '--date', '2026-06-20', '--time-limit', '5');
    const told = planned('2026-06-20').map((each) => each.id).sort();
    assert.deepEqual(told, plan.stands.map((each) => each.id).sort());
  });

  it('and can be removed', () => {
    const [one] = planned('2026-06-20');
    must('log', path, 'sown', one.id, '--count', '40', '--date', '2026-06-21', '--id', 'slip2');
    assert.match(sowtide('stand', path, 'remove', one.id, '--date', '2026-06-21').err, /sown on 2026-06-21/);
    must('log', path, 'corrected', '--target', 'slip2', '--date', '2026-06-21');
    must('stand', path, 'remove', one.id, '--date', '2026-06-21');
    assert.ok(planned('2026-06-21').every((each) => each.id !== one.id));
    const copy = join(directory, 'ghost-export');
    must('export', path, copy);
    const again = join(directory, 'ghost-again.sowtide');
    must('new', again, '--from', join(copy, 'garden.toml'));
    assert.ok(mustJson('outlook', 'outlook', again, '--date', '2026-06-21').stands.every((each) => each.id !== one.id));
  });
});
