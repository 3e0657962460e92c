// Gardens at the edge of what can be planned, by the real binary: an answer with its reason, never a crash.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, scratch, sowtide } from './support.mjs';

const bed = (more = '') => `[[beds]]\nid = "b"\nlength_m = 3\nwidth_m = 1.2\n${more}`;
const want = (crop, from, to, amount = 400) =>
  `[[wants]]\nid = "w-${crop}"\ncrop = "${crop}"\namount_per_week = ${amount}\nunit = "grams"\nfrom = "${from}"\nto = "${to}"\n`;

describe('a plan of a garden at the edge', () => {
  const directory = scratch();
  let number = 0;
  /** The plan as JSON and as text. */
  function planned(description, day, ...options) {
    const [toml, file] = ['toml', 'sowtide'].map((kind) => join(directory, `${++number}.${kind}`));
    writeFileSync(toml, `name = "Edge"\n${northmere}${description}`);
    must('new', file, '--from', toml);
    const words = ['plan', file, '--date', day, '--discard', ...options];
    return { plan: mustJson('plan', ...words), text: must(...words) };
  }
  /** Of each want that is short: its crop's id, and the key of the reason. */
  const reasons = ({ notes_said }) =>
    Object.fromEntries(notes_said.filter((note) => note[0].key === 'want-short').map((note) => [note[0].values.want_id, note[1].key]));
  const nothingSown = ({ plan }) => {
    assert.deepEqual(plan.stands, []);
    assert.ok(Math.abs(plan.objective - plan.bound) <= 1e-9 * (1 + plan.objective), 'nothing better could be');
    assert.equal(plan.gap, 0);
  };

  it('without beds plans nothing, says so of the want and how to enter one', () => {
    const answer = planned(want('radish', '05-01', '07-01'), '2026-03-02');
    nothingSown(answer);
    assert.deepEqual(reasons(answer.plan), { 'w-radish': 'no-bed' });
    assert.match(answer.text, /the garden has no beds/);
  });

  it('without wants plans nothing, and nothing is missing', () => {
    const answer = planned(bed(), '2026-03-02');
    nothingSown(answer);
    assert.equal(answer.plan.objective, 0);
    assert.deepEqual(answer.plan.wants, []);
    assert.match(answer.text, /the garden has no wants/);
  });

  it('without trays leaves out what must be raised, and sows the rest', () => {
    const { plan } = planned(bed() + want('tomato', '07-01', '10-01') + want('radish', '05-15', '07-01'), '2026-03-02');
    assert.deepEqual(reasons(plan)['w-tomato'], 'no-tray-to-raise-it');
    assert.ok(plan.stands.length > 0);
    for (const stand of plan.stands) assert.equal(stand.crop, 'radish');
  });

  it('with every bed in shade sows what bears it, reckoned in its light, and says of the rest that no bed has the sun', () => {
    const wants = want('spinach', '05-15', '06-30') + want('bush-bean', '07-15', '09-01');
    const shaded = planned(bed('sun = "shade"\n') + wants, '2026-03-02').plan;
    const sunny = planned(bed() + wants, '2026-03-02').plan;
    for (const stand of shaded.stands) assert.equal(stand.crop, 'spinach');
    assert.equal(reasons(shaded)['w-bush-bean'], 'no-bed-for-it');
    const supplied = (plan, id) => plan.wants.find((each) => each.want === id).supplied_g;
    assert.equal(supplied(shaded, 'w-bush-bean'), 0);
    assert.ok(supplied(sunny, 'w-bush-bean') > 0);
    assert.ok(supplied(shaded, 'w-spinach') < supplied(sunny, 'w-spinach'));
  });

  it('for a want of one day sows one meal', () => {
    const { plan, text } = planned(bed() + want('radish', '06-15', '06-15', 700), '2026-03-02');
    assert.match(text, /^Edge: 1 stand that keeps \d+ %/);
    assert.equal(plan.wants[0].wanted_g, 100);
    assert.ok(plan.wants[0].supplied_g > 90);
    assert.equal(plan.stands.length, 1);
    assert.ok(plan.stands[0].sow < '2026-06-01', plan.stands[0].sow);
    assert.ok(plan.stands[0].clumps < 40, `${plan.stands[0].clumps} radishes for 100 g`);
  });

  it('for a want of today alone, or of days just past, says that nothing can be ready', () => {
    for (const range of [['03-02', '03-02'], ['02-27', '03-01']]) {
      const answer = planned(bed() + want('radish', ...range), '2026-03-02');
      nothingSown(answer);
      assert.deepEqual(reasons(answer.plan), { 'w-radish': 'not-ready-then' });
    }
  });

  it('of one week says that nothing sown in it is ready in it', () => {
    const { plan } = planned(bed() + want('radish', '01-01', '12-31'), '2026-05-04', '--weeks', '1');
    assert.deepEqual(reasons(plan), { 'w-radish': 'not-ready-then' });
    assert.equal(plan.wants[0].wanted_g, 400);
    assert.equal(plan.wants[0].supplied_g, 0);
    for (const stand of plan.stands) assert.ok(stand.sow >= '2026-05-04' && stand.sow <= '2026-05-10', stand.sow);
  });

  it('with a bed too small for one plant says that none has the room', () => {
    const answer = planned(`[[beds]]\nid = "b"\nlength_m = 0.05\nwidth_m = 0.05\n${want('cabbage', '07-01', '10-01')}`, '2026-03-02');
    nothingSown(answer);
    assert.deepEqual(reasons(answer.plan), { 'w-cabbage': 'no-bed-for-it' });
  });

  it('with a want of nothing is refused by line and field', () => {
    const toml = join(directory, 'nothing.toml');
    writeFileSync(toml, `name = "Edge"\n${northmere}${bed()}${want('radish', '05-01', '07-01', 0)}`);
    const done = sowtide('new', join(directory, 'nothing.sowtide'), '--from', toml);
    assert.equal(done.code, 1);
    assert.match(done.err, /nothing\.toml:\d+:\d+: wants\[0\]\.amount_per_week: is 0/);
  });
});
