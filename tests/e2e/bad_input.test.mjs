// Missing, empty, truncated, binary, wrong-unit, out-of-range and contradictory input: one clear problem, exit 1, and
// nothing changed.
import assert from 'node:assert/strict';
import { describe, it, before } from 'node:test';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { contents, must, northmere, root, schemaProblems, scratch, seattle, sowtide } from './support.mjs';

const directory = scratch();
const garden = join(directory, 'demo.sowtide');
const description = readFileSync(join(root, 'demo', 'garden.toml'), 'utf8');
const record = readFileSync(seattle, 'utf8');
const binary = Buffer.from(Array.from({ length: 4096 }, (_, i) => (i * 197 + 13) % 256)).toString('latin1');
let state = 0;

function file(name, text) {
  const path = join(directory, name);
  writeFileSync(path, text, 'latin1');
  return path;
}

function exported(path = garden) {
  const into = join(directory, `state-${++state}`);
  must('export', path, into);
  return contents(into);
}

/** One problem on stderr, exit 1, JSON form too. */
function refuses(args, pattern) {
  const done = sowtide(...args);
  assert.equal(done.code, 1, `sowtide ${args.join(' ')}: exit ${done.code}; ${done.err}${done.out.slice(0, 300)}`);
  assert.match(done.err, /^sowtide: .+/);
  assert.equal(done.err.trim().split('\n').length, 1, `more than one line: ${done.err}`);
  if (pattern) assert.match(done.err, pattern);
  const json = sowtide(...args, '--json');
  assert.equal(json.code, 1);
  assert.equal(schemaProblems('problem', JSON.parse(json.err)), '');
  return done.err;
}

before(() => {
  must('new', garden, '--from', join(root, 'demo', 'garden.toml'));
  must('weather', garden, 'add', seattle);
});

describe('new refuses, and makes no file', () => {
  const cases = {
    missing: [join(directory, 'nowhere.toml'), /nowhere\.toml/],
    empty: [() => file('empty.toml', ''), /empty\.toml/],
    truncated: [() => file('cut.toml', description.slice(0, description.indexOf('[[beds]]') + 30)), /cut\.toml:\d+/],
    binary: [() => file('binary.toml', binary), /binary\.toml/],
    'wrong unit': [() => file('unit.toml', description.replace('unit = "grams"', 'unit = "stones"')), /unit\.toml:\d+.*unit/],
    'out of range': [() => file('range.toml', description.replace('length_m = 3.6', 'length_m = -3.6')), /range\.toml:\d+.*length_m/],
    'latitude out of range': [() => file('lat.toml', description.replace('lat = 47.45', 'lat = 147.45')), /lat/],
    'two beds of one name': [() => file('twice.toml', description.replace('id = "long"', 'id = "gate"')), /gate/],
    'unknown crop': [() => file('crop.toml', description.replaceAll('crop = "beet"', 'crop = "beat"')), /beat.*beet/],
    'unknown field': [() => file('field.toml', description.replace('width_m = 1.2', 'width_m = 1.2\nwidht_m = 1.2')), /widht_m/],
    'a stretch outside its bed': [() => file('past.toml', description.replace('to_m = 3.6\n', 'to_m = 36.0\n')), /to_m|gate/],
  };
  for (const [name, [source, pattern]] of Object.entries(cases)) {
    it(name, () => {
      const target = join(directory, `new-${name.replaceAll(' ', '-')}.sowtide`);
      refuses(['new', target, '--from', typeof source === 'function' ? source() : source], pattern);
      assert.ok(!existsSync(target));
    });
  }

  it('to overwrite a garden', () => {
    const before = exported();
    refuses(['new', garden, '--from', join(root, 'demo', 'garden.toml')], /already|exists/);
    assert.deepEqual(exported(), before);
  });
});

describe('weather add refuses, and changes nothing', () => {
  const lines = record.split('\n');
  const cases = {
    missing: () => join(directory, 'nowhere.csv'),
    empty: () => file('empty.csv', ''),
    'header only': () => file('header.csv', `${lines[0]}\n`),
    truncated: () => file('cut.csv', record.slice(0, 5000).replace(/\n[^\n]*$/, '\n2012-04-0')),
    binary: () => file('binary.csv', binary),
    'wrong unit': () => file('fahrenheit.csv', `date,tmin_c,tmax_c,rain_mm\n${Array.from({ length: 60 }, (_, i) => `2020-07-${String((i % 28) + 1).padStart(2, '0')}`).slice(0, 28).map((day) => `${day},61,88,0`).join('\n')}\n`),
    'out of range': () => file('hot.csv', 'date,tmin_c,tmax_c,rain_mm\n2020-07-01,12,410,0\n2020-07-02,12,420,0\n2020-07-03,12,430,0\n'),
    contradictory: () => file('crossed.csv', 'date,tmin_c,tmax_c,rain_mm\n2020-07-01,25,12,0\n2020-07-02,26,12,0\n2020-07-03,27,12,0\n'),
    'ambiguous date': () => file('ambiguous.csv', 'date,tmin_c,tmax_c,rain_mm\n03/04/2020,2,12,0\n04/05/2020,3,13,0\n05/06/2020,3,13,0\n'),
  };
  for (const [name, make] of Object.entries(cases)) {
    it(name, () => {
      const before = exported();
      refuses(['weather', garden, 'add', make()]);
      assert.deepEqual(exported(), before);
    });
  }

  // No outside source: what is observed cannot lie ahead of the clock.
  it('what was observed on a day to come, but takes it as a forecast', () => {
    const before = exported();
    const late = new Date(Date.now() + 5 * 86_400_000).toISOString().slice(0, 10);
    const path = file('ahead.csv', `date,tmin_c,tmax_c,rain_mm\n${late},8,17,0\n`);
    refuses(['weather', garden, 'add', path], new RegExp(`ahead\\.csv.*${late}.*--forecast`));
    assert.deepEqual(exported(), before);
    const other = join(directory, 'ahead.sowtide');
    must('new', other, '--from', join(root, 'demo', 'garden.toml'));
    must('weather', other, 'add', path, '--forecast');
  });

  it('a good file beside a bad one', () => {
    const before = exported();
    refuses(['weather', garden, 'add', seattle, join(directory, 'nowhere.csv')]);
    assert.deepEqual(exported(), before);
  });
});

describe('every verb refuses a garden that is none', () => {
  const broken = {
    missing: () => join(directory, 'nowhere.sowtide'),
    empty: () => file('empty.sowtide', ''),
    binary: () => file('binary.sowtide', binary),
    truncated: () => file('cut.sowtide', readFileSync(garden).subarray(0, 3000).toString('latin1')),
    'a text': () => file('text.sowtide', description),
  };
  for (const [name, make] of Object.entries(broken)) {
    it(name, () => {
      const path = make();
      for (const args of [
        ['export', path, join(directory, `never-${name}`)],
        ['weather', path, 'show'],
        ['weather', path, 'add', seattle],
        ['plan', path],
        ['household', path, '--add'],
        ['outlook', path],
        ['today', path],
        ['log', path, 'noted', '--text', 'x'],
        ['serve', path, '--port', '0'],
      ]) {
        refuses(args);
      }
      if (name === 'missing') assert.ok(!existsSync(path), 'reading must not make a file');
      assert.ok(!existsSync(join(directory, `never-${name}`, 'garden.toml')));
    });
  }
});

describe('log refuses, and changes nothing', () => {
  const cases = {
    'a kind that is none': ['eeten'],
    'a stand that is not there': ['sown', 's999', '--count', '3'],
    'a picking without a stand': ['picked', '--grams', '100'],
    'a negative weight': ['picked', 's1', '--grams=-5'],
    'a weight beyond reason': ['noted', '--grams', '1e12'],
    'a date that does not exist': ['noted', '--text', 'x', '--date', '2026-02-30'],
    'a date in another form': ['noted', '--text', 'x', '--date', '12.4.2026'],
    'a name with spaces': ['noted', '--text', 'x', '--id', 'a b'],
    'a correction of nothing': ['corrected', '--target', 'no-such-entry'],
  };
  for (const [name, args] of Object.entries(cases)) {
    it(name, () => {
      const before = exported();
      refuses(['log', garden, ...args]);
      assert.deepEqual(exported(), before);
    });
  }
});

describe('log refuses what contradicts the entries that stand, and changes nothing', () => {
  const path = join(directory, 'contradictions.sowtide');
  const log = (kind, stand, date, count) =>
    ['log', path, kind, stand, '--date', date, ...(count === undefined ? [] : ['--count', String(count)])];
  before(() => {
    const stands = ['direct-sow', 'start-indoors'].map((method, i) => `[[stands]]
id = "${method}"
crop = "beet"
method = "${method}"
sow = 2026-04-10
clumps = 10
spacing_mm = 150
bed = "bed"
from_m = ${i}.0
to_m = ${i + 1}.0
${i === 0 ? '' : 'tray = "tray"\n'}`);
    const places = '[[beds]]\nid = "bed"\nlength_m = 4\nwidth_m = 1\n[[trays]]\nid = "tray"\ncells = 40\n';
    must('new', path, '--from', file('contradictions.toml', `name = "Contradictions"\n${northmere}${places}${stands.join('')}`));
    for (const stand of ['direct-sow', 'start-indoors']) must(...log('sown', stand, '2026-04-10', 20));
    must(...log('counted', 'direct-sow', '2026-04-30', 30));
    must(...log('thinned', 'direct-sow', '2026-05-10', 12));
  });
  const cases = {
    'setting out what is sown in place': [log('set-out', 'direct-sow', '2026-05-01'), /direct-sow.*sown in place/],
    'setting out before the sowing': [log('set-out', 'start-indoors', '2026-04-09'), /sown on 2026-04-10.*2026-04-09/],
    'a count before the sowing': [log('counted', 'direct-sow', '2026-04-09', 5), /sown on 2026-04-10.*2026-04-09/],
    'thinning before the sowing': [log('thinned', 'direct-sow', '2026-04-09', 5), /sown on 2026-04-10.*2026-04-09/],
    'a picking before the sowing': [log('picked', 'direct-sow', '2026-04-09', 5), /sown on 2026-04-10.*2026-04-09/],
    'more plants than the seeds can give': [log('counted', 'direct-sow', '2026-05-02', 101), /101 plants.*20 seeds/],
    'more thinned than are left': [log('thinned', 'direct-sow', '2026-05-12', 19), /30 counted.*18 were left.*19/],
  };
  for (const [name, [args, pattern]] of Object.entries(cases)) {
    it(name, () => {
      const before = exported(path);
      refuses(args, pattern);
      assert.deepEqual(exported(path), before);
    });
  }

  it('a first sowing after a count that stands, and names the line of a log to import', () => {
    const into = join(directory, 'contradictions-to-import');
    must('export', path, into);
    const text = readFileSync(join(into, 'log.csv'), 'utf8');
    writeFileSync(join(into, 'log.csv'), text.replace('2026-04-10,sown,direct-sow', '2026-05-01,sown,direct-sow'));
    const said = refuses(['new', join(directory, 'never-contradictory'), '--from', join(into, 'garden.toml')]);
    assert.match(said, /log\.csv:4:.*sown on 2026-05-01/);
    assert.ok(!existsSync(join(directory, 'never-contradictory')));
  });

  it('but takes a further sowing into gaps, and what was refused once the wrong entry is corrected', () => {
    must(...log('sown', 'direct-sow', '2026-05-14', 10), '--id', 'gaps');
    must(...log('thinned', 'direct-sow', '2026-05-15', 18), '--id', 'too-many');
    refuses(log('thinned', 'direct-sow', '2026-05-16', 1));
    must('log', path, 'corrected', '--target', 'too-many');
    must(...log('thinned', 'direct-sow', '2026-05-16', 1));
  });
});

describe('the other verbs refuse', () => {
  it('windows: places that are none', () => {
    refuses(['windows', join(directory, 'nowhere.toml')], /nowhere/);
    refuses(['windows', file('empty-place.toml', '')]);
    refuses(['windows', file('binary-place.toml', binary)]);
    const place = '[site]\nname = "X"\nlat = 50\nlon = 0\nelevation_m = 10\n[normals]\ntmax_c = [1,2,3,4,5,6,7,8,9,10,11,12]\ntmin_c = [0,0,0,0,0,0,0,0,0,0,0,0]\nprecip_mm = [5,5,5,5,5,5,5,5,5,5,5,5]\n';
    refuses(['windows', file('eleven.toml', place.replace('11,12]', '11]'))], /tmax_c/);
    refuses(['windows', file('crossed-place.toml', place.replace('tmin_c = [0', 'tmin_c = [30'))], /tmin_c/);
    refuses(['windows', file('far.toml', place.replace('lat = 50', 'lat = 95'))], /lat/);
    refuses(['windows', file('good-place.toml', place), '--crop', 'beat'], /beet/);
    refuses(['windows', file('dry.toml', place.replace('[5,', '[-5,'))], /precip_mm/);
  });

  it('figure: names, keys and values', () => {
    refuses(['figure', 'no-such-figure']);
    refuses(['figure', 'emergence', 'crop=beet'], /temp_c/);
    refuses(['figure', 'emergence', 'crop=beet', 'temp_c=warm'], /temp_c/);
    refuses(['figure', 'emergence', 'crop=beet', 'temp_c=20', 'colour=red'], /colour/);
    refuses(['figure', 'emergence', 'crop=beat', 'temp_c=20'], /beet/);
    refuses(['figure', 'daylight', 'lat=95', 'date=2026-06-01'], /lat/);
    refuses(['figure', 'daylight', 'lat=45', 'date=2026-06-31'], /date/);
    refuses(['figure', 'cells', 'crop=beet', 'good_clumps=24', 'service=1.5', 'germination_pct=80'], /service/);
  });

  it('outlook: a stand that is not there', () => refuses(['outlook', garden, 's999'], /s999/));
  it('outlook: plants by size of no stand, or on no day', () => {
    const unnamed = sowtide('outlook', garden, '--on', '2026-07-10');
    assert.equal(unnamed.code, 2, 'wrong use');
    assert.match(unnamed.err, /^sowtide: --on: plants by size are told of one stand\. Name a stand/);
    refuses(['outlook', garden, 's1', '--on', '1/7/2026'], /--on: "1\/7\/2026" is not a date/);
  });
  it('proof: a group that is none', () => refuses(['proof', '--group', 'nonsense'], /sun/));
  it('plan: a garden without weather', () => {
    const bare = join(directory, 'bare.sowtide');
    must('new', bare, '--from', join(root, 'demo', 'garden.toml'));
    refuses(['plan', bare], /weather/);
  });
});
