// Windows, figures and proof by the real binary.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, scratch, seattle, sowtide } from './support.mjs';

const directory = scratch();

function placeFile(name, lat, tmax, tmin, rain) {
  const file = join(directory, `${name}.toml`);
  writeFileSync(file, `[site]\nname = "${name}"\nlat = ${lat}\nlon = 10.0\nelevation_m = 50\n[normals]\ntmax_c = [${tmax}]\ntmin_c = [${tmin}]\nprecip_mm = [${rain}]\n`);
  return file;
}

// Invented places of three kinds of climate.
const north = placeFile('Northmere', 52, '6,7,10,14,18,21,23,23,19,15,10,7', '0,0,2,4,8,11,13,13,10,7,3,1', '60,50,50,45,55,60,65,65,65,75,70,70');
const south = placeFile('Southmere', -40, '23,23,19,15,10,7,6,7,10,14,18,21', '13,13,10,7,3,1,0,0,2,4,8,11', '65,65,65,75,70,70,60,50,50,45,55,60');
const tropical = placeFile('Palmquay', 5, '31,31,32,32,31,31,30,30,31,31,31,31', '23,23,24,24,24,23,23,23,23,23,23,23', '150,140,180,200,220,180,160,170,180,210,200,170');

const dayOfYear = (text) => (Date.parse(`2025-${text}`) - Date.parse('2025-01-01')) / 86400000;
function covers(window, day) {
  const [from, to, at] = [window.from, window.to, day].map(dayOfYear);
  return from <= to ? from <= at && at <= to : at >= from || at <= to;
}

describe('windows', () => {
  it('names a crop that has none, with its best chance and what is in the way', () => {
    const answer = mustJson('windows', 'windows', 'Lebanon NH', '--crop', 'okra', '--crop', 'garlic');
    assert.deepEqual(answer.without.map((none) => none.crop), ['okra']);
    assert.ok(answer.without[0].success > 0.2 && answer.without[0].success < 0.5);
    assert.notEqual(answer.without[0].limit, '');
    assert.ok(answer.windows.some((window) => window.crop === 'garlic' && window.from > '09-01' && window.from < '10-15'));
    assert.match(must('windows', 'Lebanon NH', '--crop', 'okra', '--crop', 'garlic'), /No window for okra: its best days have a chance of \d+ %; most in the way: \w+/);
    assert.deepEqual(mustJson('windows', 'windows', 'Lebanon NH', '--crop', 'garlic').without, []);
  });

  it('has the stated form, for every crop', () => {
    const answer = mustJson('windows', 'windows', north);
    assert.equal(answer.place, 'Northmere');
    assert.ok(new Set(answer.windows.map((window) => window.crop)).size >= 12);
  });

  it('lets beet be sown in place in May in the north and in November in the south', () => {
    const beet = (file) => mustJson('windows', 'windows', file, '--crop', 'beet').windows.filter((window) => window.method === 'direct-sow');
    assert.ok(beet(north).some((window) => covers(window, '05-10')));
    assert.ok(!beet(north).some((window) => covers(window, '12-20')));
    assert.ok(beet(south).some((window) => covers(window, '11-10')));
    assert.ok(!beet(south).some((window) => covers(window, '06-20')));
  });

  it('sets tomatoes out after the frost in the north, and never in its winter', () => {
    const out = mustJson('windows', 'windows', north, '--crop', 'tomato').windows.filter((window) => window.method === 'set-out');
    assert.ok(out.some((window) => covers(window, '06-01')));
    assert.ok(!out.some((window) => covers(window, '01-15')));
  });

  it('takes the nearest built-in place for coordinates and says how far off it is', () => {
    const done = sowtide('windows', '47.5,-122.1,100', '--crop', 'beet', '--json');
    assert.equal(done.code, 0, done.err);
    assert.match(done.err, /km/);
    assert.ok(JSON.parse(done.out).windows.length > 0);
    assert.equal(sowtide('windows', '97.5,-122.1').code, 1);
  });

  it('answers for a place without frost', () => {
    const answer = mustJson('windows', 'windows', tropical, '--crop', 'tomato', '--crop', 'bush-bean');
    assert.ok(answer.windows.length > 0);
  });
});

describe('figure', () => {
  it('knows the names that others call', () => {
    const list = mustJson('figure-list', 'figure', '--list');
    const keys = Object.fromEntries(list.figures.map((figure) => [figure.name, figure.keys.map((key) => key.name)]));
    for (const [name, wanted] of Object.entries({
      daylight: ['lat', 'date'],
      'extraterrestrial-radiation': ['lat', 'date'],
      'thermal-time': ['base_c', 'optimum_c', 'ceiling_c', 'tmin_c', 'tmax_c'],
      emergence: ['crop', 'temp_c'],
      cells: ['crop', 'good_clumps', 'service', 'germination_pct'],
    })) {
      assert.ok(keys[name], `no figure ${name}`);
      for (const key of wanted) assert.ok(keys[name].includes(key), `${name} has no key ${key}`);
    }
  });

  it('works every example of its own list', () => {
    for (const figure of mustJson('figure-list', 'figure', '--list').figures) {
      if (figure.example.includes('FILE') || /weather=/.test(figure.example)) continue;
      const answer = mustJson('figure', 'figure', figure.name, ...figure.example.match(/(?:[^\s"]|"[^"]*")+/g).map((word) => word.replaceAll('"', '')));
      assert.ok(answer.source.length > 0, `${figure.name} names no source`);
      assert.ok(answer.working.length > 0, `${figure.name} shows no working`);
    }
  });

  it('tells series of one length side by side, a row a day, and names sources in full', () => {
    const growth = ['figure', 'growth', 'crop=beet', 'place=Trier', 'date=2026-05-10', 'water=0.6'];
    const answer = mustJson('figure', ...growth);
    const series = answer.result;
    const text = must(...growth);
    const rows = text.split('\n').filter((line) => /^ *\d+(\s+[\d.e-]+){3,}\s*$/.test(line)).map((line) => line.trim().split(/\s+/).map(Number));
    assert.deepEqual(rows.map((row) => row[0]), series.day);
    rows.forEach((row, i) => assert.ok(Math.abs(row[1] - series.weight_g[i]) <= 1e-3 * series.weight_g[i]));
    assert.ok(answer.source.some((source) => /published field trials/.test(source)), answer.source.join('; '));
  });

  it('counts cells as the multigerm worked example does', () => {
    // Binomial quantile at P(at least one seedling) = 0.8: 34 cells give 24 with probability 0.938, 33 do not reach 0.9.
    const answer = mustJson('figure', 'figure', 'cells', 'crop=beet', 'good_clumps=24', 'service=0.9', 'germination_pct=80');
    assert.equal(answer.result.cells, 34);
  });

  it('gives emergence with a spread and a final percentage', () => {
    const { result } = mustJson('figure', 'figure', 'emergence', 'crop=beet', 'temp_c=20');
    assert.ok(result.p10 < result.days && result.days < result.p90);
    assert.ok(result.final_pct > 0 && result.final_pct <= 100);
  });
});

describe('proof', () => {
  it('passes every judged row and names a source for each', () => {
    const proof = mustJson('proof', 'proof');
    const failed = proof.rows.filter((row) => row.judged && !row.pass && !row.known_miss);
    assert.deepEqual(failed, []);
    assert.ok(proof.judged >= 20);
    for (const row of proof.rows) assert.ok(row.source.length > 5 && row.mark.length > 0);
    assert.match(must('proof', '--group', 'sun'), /FAO-56/);
  });
});

describe('a garden whose place is not told', () => {
  const begun = join(directory, 'begun.sowtide');
  it('is made, named after its file, and says what comes next', () => {
    const said = must('new', begun);
    assert.match(said, /: begun, 0 beds/);
    assert.match(said, /The place is not told yet\. Next: sowtide serve/);
  });
  it('has every verb that needs a place say so in one sentence, with exit 1', () => {
    for (const verb of [
      ['today', begun], ['outlook', begun], ['plan', begun], ['judge', begun], ['seed', begun], ['nursery', begun],
      ['windows', begun], ['print', begun, 'sowing-sheet', '--out', join(directory, 'no.pdf')],
      ['weather', begun, 'show'], ['weather', begun, 'add', seattle],
    ]) {
      const done = sowtide(...verb);
      assert.equal(done.code, 1, `${verb.join(' ')}: ${done.out}${done.err}`);
      assert.match(done.err, /the garden's place is not told yet\. .*sowtide serve/i, verb.join(' '));
    }
  });
  it('is copied, exported and read back', () => {
    must('export', begun, join(directory, 'begun-out'));
    must('new', join(directory, 'begun-again.sowtide'), '--from', join(directory, 'begun-out', 'garden.toml'));
    must('copy', begun, join(directory, 'begun-copy.sowtide'));
  });
});

describe('usage', () => {
  it('exits 2 for what it does not know, and 0 for help', () => {
    assert.equal(sowtide().code, 2);
    assert.equal(sowtide('frobnicate').code, 2);
    assert.equal(sowtide('figure').code, 2);
    assert.equal(sowtide('plan', '--no-such-option').code, 2);
    const both = sowtide('new', join(directory, 'both.sowtide'), '--from', north, '--place', 'Northmere');
    assert.equal(both.code, 2, both.err);
    assert.match(both.err, /--place.*--from/);
    for (const verb of ['new', 'export', 'copy', 'weather', 'windows', 'plan', 'outlook', 'today', 'log', 'figure', 'proof', 'serve']) {
      const help = sowtide(verb, '--help');
      assert.equal(help.code, 0);
      assert.match(help.out, /Example:\s+sowtide /, `${verb} --help shows no example`);
    }
  });
});
