// First wants for a household, by the real binary; the page proposes the same (web/test/household.test.ts).
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, root, scratch, sowtide } from './support.mjs';

const proposals = JSON.parse(readFileSync(join(root, 'web', 'test', 'household.json'), 'utf8'));
const published = new Map(
  readFileSync(join(root, 'data', 'household.csv'), 'utf8').split('\n').slice(1).filter(Boolean).map((line) => line.split(',')).map(([crop, kg]) => [crop, Number(kg)]),
);

describe('first wants for a household', () => {
  const directory = scratch();
  let number = 0;
  const garden = (more = '') => {
    const [toml, file] = ['toml', 'sowtide'].map((kind) => join(directory, `${++number}.${kind}`));
    writeFileSync(toml, `name = "Home"\n${more}${northmere}`);
    must('new', file, '--from', toml);
    return file;
  };
  const wantsOf = (file) => {
    const out = join(directory, `out${++number}`);
    must('export', file, out);
    return readFileSync(join(out, 'garden.toml'), 'utf8').split('[[wants]]').slice(1);
  };

  for (const units of ['metric', 'us']) {
    it(`are those of the page, in ${units} units`, () => {
      const answer = mustJson('household', 'household', garden(`units = "${units}"\n`), '--people', String(proposals.people));
      const told = answer.wants.map(({ crop, amount_per_week, unit, from, to }) => ({ crop, amount_per_week, unit, from, to }));
      assert.equal(told.length, 12);
      assert.deepEqual(told.map(({ amount_per_week, ...rest }) => rest), proposals[units].map(({ amount_per_week, ...rest }) => rest));
      for (const [i, want] of told.entries()) assert.ok(Math.abs(want.amount_per_week - proposals[units][i].amount_per_week) < 1e-6, want.crop);
    });
  }

  it('are so many people times the published amount of a year, with its source', () => {
    const { wants } = mustJson('household', 'household', garden(), '--people', '5');
    for (const want of wants) {
      const week = (published.get(want.crop) * 1000 * 7) / 365.25;
      assert.ok(Math.abs(want.published.grams_per_person_week - week) < 1e-9, want.crop);
      assert.ok(Math.abs(want.amount_per_week - 5 * week) <= 5 + 1e-9, `${want.amount_per_week} g of ${want.crop}`);
      assert.match(want.published.source, /USDA/);
    }
  });

  it('are only shown until they are to be added, and then are what is planned for', () => {
    const file = garden('[[beds]]\nid = "b"\nlength_m = 4\nwidth_m = 1.2\n');
    assert.match(must('household', file, 'zucchini', 'Beet'), /Nothing is kept yet/);
    assert.equal(wantsOf(file).length, 0);
    const answer = mustJson('household', 'household', file, 'zucchini', 'Beet', '--people', '3', '--add');
    assert.equal(answer.added, true);
    assert.deepEqual(answer.wants.map((want) => [want.crop, want.unit, want.published === null]), [['courgette', 'grams', false], ['beet', 'servings', true]]);
    assert.equal(answer.wants[1].amount_per_week, 3, 'a serving a person where nothing is published');
    const wants = wantsOf(file);
    assert.equal(wants.length, 2);
    assert.match(wants[0], /crop = "courgette"/);
    const plan = mustJson('plan', 'plan', file, '--date', '2026-03-02', '--discard', '--time-limit', '20', '--effort', '0.1');
    assert.deepEqual(plan.wants.map((want) => want.want).sort(), ['beet', 'courgette']);
  });

  it('leave out what is wanted already, and take another name where that is taken', () => {
    const file = garden('[[wants]]\nid = "carrot"\ncrop = "potato"\namount_per_week = 100\nunit = "grams"\n');
    const answer = mustJson('household', 'household', file, '--add');
    assert.ok(!answer.wants.some((want) => want.crop === 'potato'));
    assert.equal(answer.wants.find((want) => want.crop === 'carrot').id, 'carrot-2');
    assert.equal(wantsOf(file).length, 13);
    const again = mustJson('household', 'household', file);
    const both = new Set([...answer.wants, ...again.wants].map((want) => want.crop));
    assert.equal(both.size, answer.wants.length + again.wants.length, 'none twice');
  });

  it('are refused where they make no sense, and the garden stays as it is', () => {
    const file = garden('[[wants]]\nid = "w"\ncrop = "potato"\namount_per_week = 100\nunit = "grams"\n');
    for (const [words, message] of [
      [['potatoes'], /a want of "potato" already/],
      [['carrot', 'carrots'], /"carrot" is named twice/],
      [['parsnp'], /no crop "parsnp".*parsnip/],
    ]) {
      const done = sowtide('household', file, ...words, '--add');
      assert.equal(done.code, 1);
      assert.match(done.err, message);
    }
    assert.equal(sowtide('household', file, '--people', '0').code, 2);
    assert.equal(wantsOf(file).length, 1);
  });
});
