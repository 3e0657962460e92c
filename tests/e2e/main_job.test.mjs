// The main job by the real binary: description → garden → weather → plan → outlook → worklist → log → export and back.
import assert from 'node:assert/strict';
import { describe, it, before } from 'node:test';
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { contents, must, mustJson, root, scratch, seattle } from './support.mjs';

const planDay = '2026-02-15';

describe('the main job', () => {
  const directory = scratch();
  const garden = join(directory, 'demo.sowtide');
  let plan;

  before(() => {
    mustJson('new', 'new', garden, '--from', join(root, 'demo', 'garden.toml'));
    mustJson('weather-add', 'weather', garden, 'add', seattle);
    plan = mustJson('plan', 'plan', garden, '--date', planDay);
  });

  it('plans the demo garden with a bound below the objective and a gap that follows from both', () => {
    assert.ok(plan.stands.length >= 12, `${plan.stands.length} stands`);
    assert.ok(plan.bound <= plan.objective + 1e-6);
    assert.ok(Math.abs(plan.gap - (plan.objective - plan.bound) / plan.objective) < 1e-6);
  });

  it('places every stand inside its bed, without overlap in space and time', () => {
    const outlook = mustJson('outlook', 'outlook', garden, '--date', planDay);
    const lengths = { gate: 3.6, long: 6, kitchen: 2.4, wall: 4.8, hedge: 3, low: 2.4 };
    const boxes = outlook.stands.map((stand) => {
      assert.ok(stand.from_m >= -1e-9 && stand.to_m <= lengths[stand.bed] + 1e-6, `${stand.id} lies outside ${stand.bed}`);
      const named = Object.fromEntries(stand.events.map((event) => [event.name, event]));
      const from = stand.method === 'direct-sow' ? stand.sow : (stand.set_out ?? named['set-out']?.p50);
      return { ...stand, from, until: named['last-pick']?.p50 };
    });
    for (const a of boxes) {
      for (const b of boxes) {
        if (a.id >= b.id || a.bed !== b.bed || !a.from || !b.from || !a.until || !b.until) continue;
        const inSpace = a.from_m < b.to_m - 1e-6 && b.from_m < a.to_m - 1e-6;
        const inTime = a.from < b.until && b.from < a.until;
        assert.ok(!(inSpace && inTime), `${a.id} (${a.crop} ${a.from}..${a.until}) and ${b.id} (${b.crop} ${b.from}..${b.until}) need the same place in ${a.bed}`);
      }
    }
  });

  it('gives every stand its events in order and weekly weights with rising quantiles', () => {
    const outlook = mustJson('outlook', 'outlook', garden, '--date', planDay);
    for (const stand of outlook.stands) {
      const named = Object.fromEntries(stand.events.map((event) => [event.name, event]));
      assert.ok(named.emerge && named['first-pick'] && named['last-pick'], `${stand.id} has ${Object.keys(named)}`);
      for (const event of stand.events) assert.ok(event.p10 <= event.p50 && event.p50 <= event.p90, `${stand.id} ${event.name}`);
      assert.ok(named.emerge.p50 > stand.sow, `${stand.id} is up before it is sown`);
      assert.ok(named['first-pick'].p50 > named.emerge.p50);
      for (const week of stand.weeks) {
        assert.ok(week.weight_g.p10 <= week.weight_g.p50 && week.weight_g.p50 <= week.weight_g.p90);
        assert.ok(week.weight_g.p10 >= 0);
      }
    }
  });

  it('names the first sowing on its day, and logging it moves the work on', () => {
    const first = [...plan.stands].sort((a, b) => a.sow.localeCompare(b.sow))[0];
    const before = mustJson('today', 'today', garden, '--date', first.sow);
    const task = before.tasks.find((line) => line.stand === first.id && line.kind === 'sow');
    assert.ok(task, `no sowing of ${first.id} on ${first.sow}`);
    mustJson('log', 'log', garden, 'sown', first.id, '--count', String(task.log_count), '--date', first.sow, '--id', 'e2e-1');
    const after = mustJson('today', 'today', garden, '--date', first.sow);
    assert.ok(!after.tasks.some((line) => line.stand === first.id && line.kind === 'sow'));
    const again = mustJson('log', 'log', garden, 'sown', first.id, '--count', String(task.log_count), '--date', first.sow, '--id', 'e2e-1');
    assert.equal(again.new, 0, 'the same entry twice changes nothing');
    mustJson('log', 'log', garden, 'corrected', '--target', 'e2e-1', '--date', first.sow, '--id', 'e2e-2');
    const undone = mustJson('today', 'today', garden, '--date', first.sow);
    assert.ok(undone.tasks.some((line) => line.stand === first.id && line.kind === 'sow'), 'a correction brings the work back');
  });

  it('says what it logged in one plain line, for a bed as for a stand', () => {
    const copy = join(directory, 'said.sowtide');
    copyFileSync(garden, copy);
    const said = must('log', copy, 'watered', '--target', plan.stands[0].bed, '--litres', '12', '--date', planDay);
    assert.match(said, new RegExp(`^Logged: watered ${plan.stands[0].bed}, 12 L, on ${planDay} `));
  });

  it('keeps a stand that was sown when the plan is made again', () => {
    const first = [...plan.stands].sort((a, b) => a.sow.localeCompare(b.sow))[0];
    must('log', garden, 'sown', first.id, '--count', '10', '--date', first.sow, '--id', 'e2e-3');
    must('plan', garden, '--date', first.sow);
    const outlook = mustJson('outlook', 'outlook', garden, first.id, '--date', first.sow);
    assert.equal(outlook.stands[0].state, 'sown');
    assert.equal(outlook.stands[0].bed, first.bed);
    assert.ok(outlook.stands[0].fan.p50.length > 0);
  });

  it('exports everything and reads it back exactly', () => {
    const one = join(directory, 'one');
    const two = join(directory, 'two');
    mustJson('export', 'export', garden, one);
    must('new', join(directory, 'copy.sowtide'), '--from', join(one, 'garden.toml'));
    must('export', join(directory, 'copy.sowtide'), two);
    assert.deepEqual(contents(two), contents(one));
    const day = ['--date', '2026-05-01', '--json'];
    assert.equal(must('outlook', join(directory, 'copy.sowtide'), ...day), must('outlook', garden, ...day));
  });

  it('answers the same on one and on two threads', () => {
    // A small garden, so that the effort and not the clock ends the search on any machine.
    const small = join(directory, 'small.sowtide');
    const text = readFileSync(join(root, 'demo', 'garden.toml'), 'utf8');
    const wants = text.split('[[wants]]').slice(1);
    const file = join(directory, 'small.toml');
    writeFileSync(file, `${text.split('[[wants]]')[0]}[[wants]]${wants.slice(0, 3).join('[[wants]]')}`);
    must('new', small, '--from', file);
    must('weather', small, 'add', seattle);
    const plan = (threads) => {
      const answer = JSON.parse(must('plan', small, '--date', planDay, '--threads', threads, '--discard', '--time-limit', '300', '--json'));
      return JSON.stringify({ ...answer, seconds: 0 });
    };
    assert.ok(plan('1') === plan('2'), 'the plans differ');
  });

  it('shows the weather with what is observed and the monthly normals', () => {
    const shown = mustJson('weather-show', 'weather', garden, 'show');
    assert.equal(shown.first, '2012-01-01');
    assert.equal(shown.last, '2015-12-31');
    const tmax = shown.variables.find((variable) => variable.name === 'tmax');
    assert.equal(tmax.observed, 1461);
  });

  it('speaks to people without JSON too', () => {
    assert.match(must('outlook', garden, '--date', planDay), /first pick/);
    assert.match(must('today', garden, '--date', planDay, '--days', '30'), /why: /);
    assert.match(must('weather', garden, 'show'), /Monthly normals/);
  });
});
