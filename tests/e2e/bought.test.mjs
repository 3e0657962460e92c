// Plants that are bought, from the want to the log, by the real binary.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, scratch, sowtide } from './support.mjs';

const directory = scratch();
const newYear = '2026-01-01';

/** A garden without a tray that wants tomatoes and carrots. */
function gardenWith(name, bought) {
  const description = join(directory, `${name}.toml`);
  const garden = join(directory, `${name}.sowtide`);
  const want = (crop) => `[[wants]]
id = "${crop}"
crop = "${crop}"
amount_per_week = 1500
unit = "grams"
from = "07-15"
to = "10-01"
${bought ? 'bought = true\n' : ''}`;
  writeFileSync(
    description,
    `name = "${name}"\n${northmere}[[beds]]\nid = "long"\nlength_m = 6\nwidth_m = 1.2\n${want('tomato')}${want('carrot')}`,
  );
  must('new', garden, '--from', description);
  return garden;
}

const plan = (garden, day) => mustJson('plan', 'plan', garden, '--date', day, '--time-limit', '20');
const tomatoesOf = (answer) => answer.stands.filter((stand) => stand.crop === 'tomato');
const phrases = (answer, key) => answer.notes_said.flat().filter((phrase) => phrase.key === key);

describe('a garden without a tray', () => {
  it('is told that bought plants would do', () => {
    const garden = gardenWith('trayless', false);
    const answer = plan(garden, newYear);
    assert.equal(tomatoesOf(answer).length, 0);
    assert.equal(phrases(answer, 'no-tray-to-raise-it').length, 1);
    assert.match(must('plan', garden, '--date', newYear, '--time-limit', '20'), /Short, since it is not sown in place and .*its plants are bought: Tomato\./);
  });
});

describe('a want whose plants are bought', () => {
  const garden = gardenWith('buying', true);
  let first;

  it('is kept in the garden file and its text', () => {
    const text = join(directory, 'buying');
    must('export', garden, text);
    assert.match(readFileSync(join(text, 'garden.toml'), 'utf8'), /crop = "tomato"[^[]*bought = true/);
  });

  it('is planned to be set out after the frosts, without seed or tray, and only where the crop bears it', () => {
    const answer = plan(garden, newYear);
    assert.equal(phrases(answer, 'no-tray-to-raise-it').length, 0);
    assert.ok(tomatoesOf(answer).length > 0);
    for (const stand of tomatoesOf(answer)) {
      assert.deepEqual([stand.method, stand.tray, stand.cells, stand.packet], ['start-indoors', '', 0, '']);
      assert.ok(stand.set_out > '2026-04-25' && stand.set_out < '2026-07-01', stand.set_out);
      assert.ok(stand.sow < stand.set_out);
    }
    const carrots = answer.stands.filter((stand) => stand.crop === 'carrot');
    assert.ok(carrots.length > 0 && carrots.every((stand) => stand.method === 'direct-sow'));
    [first] = tomatoesOf(answer).sort((a, b) => a.set_out.localeCompare(b.set_out));
    const text = must('plan', garden, '--date', newYear, '--time-limit', '20', '--discard');
    assert.match(text, /s\d+ +bought +Tomato +\d+ plants to buy/);
  });

  it('asks for no tomato seed, no tray, and nothing before the day of setting out', () => {
    assert.deepEqual(mustJson('packets', 'seed', garden, '--date', newYear).needs.map((need) => need.crop).filter((crop) => crop === 'tomato'), []);
    assert.deepEqual(mustJson('nursery', 'nursery', garden, '--date', newYear).stands, []);
    for (const day of [first.sow < newYear ? newYear : first.sow, '2026-03-01']) {
      const { tasks } = mustJson('today', 'today', garden, '--date', day);
      assert.ok(tasks.every((task) => task.crop !== 'tomato'), JSON.stringify(tasks));
    }
    const calendar = must('print', garden, 'calendar', '--out', '-', '--date', newYear);
    assert.match(calendar, /SUMMARY:Buy and set out Tomato/);
    assert.doesNotMatch(calendar, /SUMMARY:(Sow|Harden off|Look for) Tomato/);
  });

  it('is work on its day, and a fact once it is logged as the work says', () => {
    const { tasks } = mustJson('today', 'today', garden, '--date', first.set_out);
    const task = tasks.find((each) => each.stand === first.id);
    assert.deepEqual([task.kind, task.due, task.log_event, task.log_text, task.log_count], ['set-out', first.set_out, 'set-out', 'bought', first.clumps]);
    assert.match(must('today', garden, '--date', first.set_out), /^Buy and set out: /m);
    must('log', garden, task.log_event, first.id, '--count', String(task.log_count), '--text', task.log_text, '--date', first.set_out);
    assert.match(must('stand', garden, '--date', first.set_out), new RegExp(`${first.id} +Tomato .* ${first.clumps} +bought, .* +growing`));
    const kept = plan(garden, first.set_out);
    assert.ok(kept.stands.every((stand) => stand.id !== first.id), 'it is no plan any more');
    assert.match(must('stand', garden, '--date', first.set_out), new RegExp(`${first.id} +Tomato .* growing`));
  });

  it('that is no truth value is refused where it stands', () => {
    const description = join(directory, 'wrong.toml');
    writeFileSync(description, `name = "Wrong"\n${northmere}[[wants]]\nid = "w"\ncrop = "tomato"\namount_per_week = 1\nunit = "grams"\nbought = "yes"\n`);
    const refused = sowtide('new', join(directory, 'wrong.sowtide'), '--from', description);
    assert.equal(refused.code, 1);
    assert.match(refused.err, /wants\[0\]\.bought/);
  });
});

describe('plants to buy that are put in by hand', () => {
  const garden = gardenWith('own', true);
  const day = '2026-05-20';

  it('are planned for their day, moved with it, and put off when it has passed', () => {
    const made = mustJson('own-stand', 'stand', garden, 'add', 'leek', '--bed', 'long', '--count', '24', '--bought', '--day', '2026-06-10', '--date', day);
    assert.equal(made.logged, 'noted');
    assert.match(must('stand', garden, '--date', day), /s1 +Leek .* 24 +bought, .* +planned/);
    const moved = mustJson('stand-move', 'stand', garden, 'move', 's1', '--day', '2026-06-17', '--date', day);
    assert.ok(moved.sow < day, 'the plants were sown elsewhere');
    const due = (date) => mustJson('today', 'today', garden, '--date', date).tasks.find((task) => task.stand === 's1');
    assert.equal(due(day), undefined);
    assert.equal(due('2026-06-15').due, '2026-06-17');
    assert.equal(due('2026-07-15').said.reason[0].key, 'missed');
    const past = sowtide('stand', garden, 'move', 's1', '--day', '2026-05-01', '--date', day);
    assert.equal(past.code, 1);
    assert.match(past.err, /--day: 2026-05-01 is past or too far ahead/);
  });
});
