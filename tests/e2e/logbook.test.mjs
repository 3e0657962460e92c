// Reading the log and the store from the command line, and amounts as people write them.
import assert from 'node:assert/strict';
import { before, describe, it } from 'node:test';
import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, scratch, sowtide } from './support.mjs';

const directory = scratch();
const garden = join(directory, 'log.sowtide');

const description = (units) => `name = "Logged"
units = "${units}"
${northmere}[[beds]]
id = "b1"
name = "Long"
length_m = 4
width_m = 1.2
sun = "full"
kind = "raised"
[[stands]]
id = "s1"
crop = "beet"
method = "direct-sow"
sow = "2026-05-01"
clumps = 30
spacing_mm = 150
bed = "b1"
from_m = 0
to_m = 1
[[stands]]
id = "s2"
crop = "lettuce"
method = "direct-sow"
sow = "2026-05-10"
clumps = 20
spacing_mm = 280
bed = "b1"
from_m = 1
to_m = 2
`;

function make(path, units = 'metric') {
  writeFileSync(`${path}.toml`, description(units));
  must('new', path, '--from', `${path}.toml`);
}

describe('the log is read from the command line', () => {
  before(() => {
    make(garden);
    must('log', garden, 'sown', 's1', '--count', '40', '--date', '2026-05-01', '--id', 'a1');
    must('log', garden, 'sown', 's2', '--date', '2026-05-10', '--id', 'a2');
    must('log', garden, 'counted', 's1', '--count', '99', '--date', '2026-05-20', '--id', 'a3');
    must('log', garden, 'corrected', '--target', 'a3', '--date', '2026-05-21', '--id', 'a4');
    must('log', garden, 'picked', 's1', '--count', '5', '--grams', '850', '--text', 'sweet', '--date', '2026-07-20', '--id', 'a5');
    must('log', garden, 'stored', 's1', '--grams', '600', '--text', 'best', '--date', '2026-07-20', '--id', 'lot1');
    must('log', garden, 'eaten', '--target', 'lot1', '--grams', '200', '--date', '2026-07-25', '--id', 'a7');
  });

  it('as a table, with the stand by its name, the corrected marked and the ids to correct by', () => {
    const lines = must('log', garden).split('\n');
    assert.match(lines[0], /date +what +of +count +weight +measure +text +entry/);
    assert.match(must('log', garden), /2026-05-20 +counted \(corrected\) +s1 Beet +99 +a3/);
    assert.match(must('log', garden), /2026-07-20 +picked +s1 Beet +5 +850 g +sweet +a5/);
  });

  it('of one stand, of some days, and only the latest', () => {
    const list = (...options) => mustJson('logbook', 'log', garden, ...options);
    const ids = (...options) => list(...options).entries.map((entry) => entry.id);
    assert.deepEqual(ids('--stand', 's2'), ['a2']);
    assert.deepEqual(ids('--from', '2026-05-20', '--to', '2026-05-21'), ['a3', 'a4']);
    assert.deepEqual(ids('--most', '2'), ['lot1', 'a7']);
    assert.equal(list('--most', '2').matching, 7);
    assert.deepEqual(ids('--date', '2026-05-10'), ['a1', 'a2']);
    assert.deepEqual(list().entries.filter((entry) => entry.corrected).map((entry) => entry.id), ['a3']);
    assert.match(must('log', garden, '--most', '2'), /The latest 2 of 7 entries; --most 7 shows all/);
    assert.equal(list('--stand', 's1').entries[0].crop_name, 'Beet');
  });

  it('and refuses what fits no list', () => {
    assert.match(sowtide('log', garden, '--stand', 's9').err, /no stand "s9"/);
    assert.match(sowtide('log', garden, '--grams', '4').err, /EVENT: is needed/);
    assert.match(sowtide('log', garden, '--from', '2026-06-01', '--to', '2026-05-01').err, /--to: 2026-05-01 lies before/);
    assert.match(sowtide('log', garden, 'noted', '--text', 'x', '--most', '3').err, /--most: is of the list/);
  });

  it('and so is the store', () => {
    const { lots } = mustJson('store', 'store', garden, '--date', '2026-07-26');
    assert.deepEqual(lots.map(({ id, grams, place }) => [id, grams, place]), [['lot1', 400, 'best']]);
    assert.match(must('store', garden, '--date', '2026-07-26'), /lot1 +Beet +best +400 g +20 Jul/);
    assert.match(must('store', garden, '--date', '2026-07-01'), /The store is empty/);
  });
});

describe('what is stored', () => {
  it('lies where people say it does, and help tells the words', () => {
    const stored = join(directory, 'stored.sowtide');
    make(stored);
    must('log', stored, 'stored', 's1', '--grams', '900', '--text', 'cellar, crate 2', '--date', '2026-09-20');
    assert.equal(mustJson('store', 'store', stored, '--date', '2026-09-21').lots[0].place, 'best');
    assert.match(must('log', '--help'), /best \(cellar, clamp, cold room\)/);
    assert.match(sowtide('log', stored, 'stored', 's1', '--grams', '1', '--text', 'attic').err, /cellar/);
  });
});

describe('amounts carry their unit', () => {
  const us = join(directory, 'us.sowtide');
  before(() => make(us, 'us'));

  it('pounds and ounces, inches and gallons; a bare number is of the unit in the option’s name', () => {
    must('log', us, 'sown', 's1', '--date', '2026-05-01');
    assert.match(
      must('log', us, 'picked', 's1', '--weight', '2lb', '--date', '2026-07-20', '--id', 'w1'),
      /Logged: picked s1 Beet, 2 lb, on 2026-07-20 \(entry w1\)/,
    );
    must('log', us, 'picked', 's1', '--grams', '12oz', '--date', '2026-07-21', '--id', 'w2');
    must('log', us, 'picked', 's1', '--grams', '100', '--date', '2026-07-22', '--id', 'w3');
    must('log', us, 'measured', 's1', '--diameter', '2in', '--date', '2026-07-22', '--id', 'w4');
    must('log', us, 'watered', 's1', '--litres', '2gal', '--date', '2026-07-23', '--id', 'w5');
    const of = new Map(mustJson('logbook', 'log', us).entries.map((entry) => [entry.id, entry]));
    assert.ok(Math.abs(of.get('w1').grams - 907.18474) < 1e-6);
    assert.ok(Math.abs(of.get('w2').grams - 340.1942775) < 1e-6);
    assert.equal(of.get('w3').grams, 100);
    assert.equal(of.get('w4').diameter_mm, 50.8);
    assert.ok(Math.abs(of.get('w5').litres - 7.570823568) < 1e-6);
    assert.match(must('log', us), /picked +s1 Beet +2 lb/);
    assert.match(must('log', us), /watered +s1 Beet +2 gal/);
  });

  it('but none whose unit could be either', () => {
    const before = mustJson('logbook', 'log', us).matching;
    for (const [kind, option, number] of [['measured', '--diameter', '1.5'], ['picked', '--weight', '12'], ['watered', '--water', '3']]) {
      const refused = sowtide('log', us, kind, 's1', option, number, '--date', '2026-07-24');
      assert.equal(refused.code, 1);
      assert.match(refused.err, new RegExp(`${option}: "${number}" has no unit, and this garden has US units.*Write the unit`));
    }
    assert.equal(mustJson('logbook', 'log', us).matching, before);
    const metric = join(directory, 'metric.sowtide');
    make(metric);
    assert.match(must('log', metric, 'picked', 's1', '--weight', '12', '--date', '2026-07-20'), /picked s1 Beet, 12 g/);
    assert.equal(sowtide('log', us, 'picked', 's1', '--weight', '1lb', '--grams', '4').code, 2);
  });

  it('and an unknown unit is told with those that serve', () => {
    assert.match(sowtide('log', us, 'picked', 's1', '--weight', '2stone').err, /--weight: "2stone" is not understood.*g, kg, oz, lb/);
  });
});

describe('an entry is answered', () => {
  const said = join(directory, 'said.sowtide');
  before(() => {
    make(said, 'us');
    must('log', said, 'sown', 's1', '--date', '2026-05-01', '--count', '40');
  });

  it('with names as people type them', () => {
    assert.match(must('log', said, 'Watered', '--target', 'LONG', '--water', '2gal'), /Logged: watered b1, 2 gal, on/);
    assert.match(must('log', said, 'noted', 'S1', '--text', 'slugs'), /Logged: noted s1 Beet/);
    assert.match(must('outlook', said, 'S1', '--date', '2026-06-01'), /^s1: Beet/m);
    assert.match(sowtide('log', said, 'picked', 'beets', '--weight', '1lb').err, /Stands of beet: s1/);
    assert.match(sowtide('judge', said, 'lettuce').err, /STAND: there is no stand "lettuce"\. Stands of lettuce: s2/);
    assert.match(sowtide('log', said, 'harvested', 's1', '--weight', '1lb').err, /Did you mean picked\?/);
    assert.match(sowtide('log', said, 'watered', '--target', 'Lonk').err, /--target: there is no bed "Lonk".*Did you mean Long\?/);
  });

  it('with cautions, also in JSON, and what is impossible is refused', () => {
    const answer = mustJson('log', 'log', said, 'stored', 's1', '--weight', '3lb', '--date', '2026-08-01', '--id', 'lot');
    assert.equal(answer.understood, 'stored s1 Beet, 3 lb');
    assert.match(answer.cautions.join(), /nothing was picked of stand s1/);
    assert.match(must('log', said, 'sown', 's2', '--count', '900', '--date', '2026-05-10'), /Caution: 900 seeds, where the plan has 20\.\nIf that is wrong: .*corrected --target/);
    assert.match(sowtide('log', said, 'picked', 's1', '--count', '400', '--date', '2026-08-02').err, /cannot have given 400 plants in all from the 40 seeds sown/);
    assert.deepEqual(mustJson('log', 'log', said, 'noted', 's1', '--text', 'fine').cautions, []);
  });

  it('with what to do instead, where it is refused', () => {
    const refusal = (...args) => {
      const done = sowtide('log', said, ...args);
      assert.notEqual(done.code, 0, args.join(' '));
      return done.err;
    };
    assert.match(refusal('watered', 'Long', '--water', '2gal'), /there is no stand "Long"\. b1 is a bed; .*--target b1; its stands: s1, s2/);
    assert.match(refusal('died', 's1'), /Did you mean discarded\?/);
    assert.match(refusal('picked', 's1', '--weight', '1,2kg'), /Write decimals behind a point, 1\.2kg/);
    assert.match(refusal('picked', 's1', '--weight', '700', 'g'), /--weight: "700 g" came as two words\. Write them as one, 700g, or in quotes/);
    assert.match(refusal('picked', '--weight', '2', 'lb', '--stand', 's1'), /as one, 2lb/);
    assert.match(refusal('noted', 's1', '--text', 'x', '--date', '5/20/2026'), /Write the year first: 2026-05-20/);
    assert.match(refusal('noted', 's1', '--text', 'x', '--date', '5/6/2026'), /Write the year first: 2026-05-06 or 2026-06-05/);
    assert.match(refusal('noted', 's1', '--text', 'x', '--date', '5/32/2026'), /YYYY-MM-DD/);
    assert.match(refusal('stored', 's1', '--weight', '1lb', '--text', 'freezer'), /The places are kitchen, fridge and best; how long frozen food keeps/);
  });

  it('of rain and sprinklers by their depth, where a bed is named', () => {
    const answer = mustJson('log', 'log', said, 'watered', '--target', 'Long', '--water', '1in', '--date', '2026-07-01', '--id', 'rain');
    assert.match(answer.understood, /^watered b1, 32 gal \(1 in on all of the bed\)$/);
    const written = mustJson('logbook', 'log', said).entries.find((entry) => entry.id === 'rain');
    assert.ok(Math.abs(written.litres - 25.4 * 4 * 1.2) < 1e-6);
    assert.match(sowtide('log', said, 'watered', 's1', '--water', '25mm').err, /--water: "25mm" is a depth of water\. Name the bed that was watered with --target/);
  });

  it('and what is eaten of a stand comes out of its store', () => {
    assert.doesNotMatch(must('log', said, 'eaten', 's1', '--weight', '1lb', '--date', '2026-08-03'), /Caution/);
    const { lots } = mustJson('store', 'store', said, '--date', '2026-08-04');
    assert.ok(Math.abs(lots.find((lot) => lot.id === 'lot').grams - 907.2) < 0.1);
    assert.match(must('log', said, 'eaten', 's2', '--date', '2026-08-03'), /Caution: nothing of stand s2 lies in store/);
  });
});

describe('a stand that is picked whole', () => {
  const picked = join(directory, 'picked.sowtide');
  before(() => {
    writeFileSync(`${picked}.toml`, description('metric').replace('"beet"', '"garlic"').replace('sow = "2026-05-01"', 'sow = "2025-10-15"')
      .replace('"direct-sow"\nsow = "2026-05-10"', '"start-indoors"\nsow = "2026-05-10"\nset_out = "2026-06-05"'));
    must('new', picked, '--from', `${picked}.toml`);
    must('log', picked, 'sown', 's1', '--date', '2025-10-15');
    must('log', picked, 'sown', 's2', '--date', '2026-05-10');
  });

  it('is judged no longer, though nobody counted it', () => {
    const judged = () => mustJson('judge', 'judge', picked, '--date', '2026-07-25').stands.map((stand) => stand.stand);
    assert.deepEqual(judged(), ['s1']);
    must('log', picked, 'picked', 's1', '--count', '29', '--grams', '1450', '--date', '2026-07-20');
    assert.deepEqual(judged(), ['s1']);
    must('log', picked, 'picked', 's1', '--count', '1', '--grams', '50', '--date', '2026-07-21');
    assert.deepEqual(judged(), []);
  });

  it('and one that was picked is not set out for the first time later', () => {
    must('log', picked, 'picked', 's2', '--count', '2', '--date', '2026-07-01');
    assert.match(sowtide('log', picked, 'set-out', 's2', '--date', '2026-09-01').err, /was picked on 2026-07-01 and cannot be set out first on 2026-09-01/);
  });
});

describe('an export that is read elsewhere', () => {
  it('without the files that it names says which, and what to do', () => {
    const from = join(directory, 'exported');
    const moved = join(directory, 'moved');
    must('export', garden, from);
    mkdirSync(moved);
    copyFileSync(join(from, 'garden.toml'), join(moved, 'garden.toml'));
    const { code, err } = sowtide('new', join(directory, 'again.sowtide'), '--from', join(moved, 'garden.toml'));
    assert.equal(code, 1);
    assert.match(err, /moved.log\.csv: is not there, and .*garden\.toml names it under \[log\]\. Put the file there, beside the description, or take the section \[log\] out of it/);
  });
});

describe('a number out of the range of its option', () => {
  it('is told as typed, with the range as in help', () => {
    const effort = sowtide('plan', garden, '--effort', '0');
    assert.equal(effort.code, 2);
    assert.match(effort.err, /--effort: 0 is not within 0\.1 to 50/);
    assert.match(sowtide('plan', garden, '--weeks', '105').err, /--weeks: 105 is not within 1 to 104/);
    assert.match(sowtide('plan', garden, '--weeks', 'many').err, /many is not a number from 1 to 104/);
    assert.match(must('plan', '--help'), /0\.1 to 50/);
  });
});

describe('a picking of all of a stand', () => {
  const path = join(directory, 'all.sowtide');
  before(() => {
    make(path);
    must('log', path, 'sown', 's2', '--count', '40', '--date', '2026-05-10');
    must('log', path, 'counted', 's2', '--count', '19', '--date', '2026-05-25');
    must('log', path, 'picked', 's2', '--count', '5', '--weight', '1.1kg', '--date', '2026-07-01');
  });

  it('ends it, and takes the plants that are left', () => {
    const said = must('log', path, 'picked', 's2', '--all', '--weight', '3.4kg', '--text', 'before the heat', '--date', '2026-07-08');
    assert.match(said, /Logged: picked s2 Lettuce, all of it, 3\.4 kg/);
    assert.doesNotMatch(said, /Caution/);
    assert.match(must('stand', path, '--date', '2026-07-09'), /s2 +Lettuce .* 0 +10 May +finished/);
    assert.match(must('log', path), /picked +s2 Lettuce .*all, before the heat/);
  });

  it('is of a picking only', () => {
    const notOfThem = sowtide('log', path, 'counted', 's1', '--count', '3', '--leaves');
    assert.equal(notOfThem.code, 2);
    assert.match(notOfThem.err, /--leaves: is of a picking/);
    const refused = sowtide('log', path, 'counted', 's1', '--count', '3', '--all');
    assert.equal(refused.code, 2);
    assert.match(refused.err, /--all: is of a picking/);
  });
});
