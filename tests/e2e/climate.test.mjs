// What the real binary says of the climate: a warming by choice, chill and heat, long series, far places.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, it } from 'node:test';
import { contents, must, mustJson, northmere, root, scratch, seattle, sowtide } from './support.mjs';

const directory = scratch();
const place = join(directory, 'northmere.toml');
writeFileSync(place, northmere);

const dayOfYear = (text) => (Date.parse(`2025-${text}`) - Date.parse('2025-01-01')) / 86400000;
const firstSowing = (answer) => Math.min(...answer.windows.filter((each) => each.method === 'direct-sow').map((each) => dayOfYear(each.from)));

describe('a warming by choice', () => {
  // No outside source for the dates: a spring that is warmer cannot make the first sowing later.
  it('brings the first sowing forward and says so', () => {
    const asIs = mustJson('windows', 'windows', place, '--crop', 'bush-bean');
    const warmer = mustJson('windows', 'windows', place, '--crop', 'bush-bean', '--warming', '3');
    assert.ok(firstSowing(warmer) < firstSowing(asIs) - 3, `${firstSowing(asIs)} to ${firstSowing(warmer)}`);
    assert.match(warmer.weather, /3 °C warmer by choice/);
    assert.doesNotMatch(asIs.weather, /by choice/);
    assert.match(must('windows', place, '--crop', 'bush-bean', '--warming', '-1.5'), /1\.5 °C colder by choice/);
  });

  it('has places built in that can be listed', () => {
    const all = mustJson('places', 'places').places;
    assert.ok(all.length > 100);
    const some = mustJson('places', 'places', 'zealand').places;
    assert.ok(some.length > 0 && some.length < all.length);
    assert.ok(some.every((place) => place.country === 'New Zealand'));
    assert.match(must('places', 'ZEALAND'), /place +country +latitude +longitude +elevation\n[-\s]+\n.*New Zealand +-\d+\.\d\d +\d+\.\d\d +\d+ m/);
    assert.match(must('places', 'atlantis'), /No built-in place has "atlantis".*LAT,LON/s);
    assert.match(sowtide('windows', 'San Diego').err, /`sowtide places` lists them all/);
  });

  it('may stand in the place file, and the command has the last word', () => {
    const warmer = place.replace('.toml', '-warmer.toml');
    writeFileSync(warmer, northmere.replace('[site]\n', '[site]\nwarming_c = 2\n'));
    assert.match(must('windows', warmer, '--crop', 'bush-bean'), /2 °C warmer by choice/);
    assert.doesNotMatch(must('windows', warmer, '--crop', 'bush-bean', '--warming', '0'), /by choice/);
  });

  it('is held within what can be meant', () => {
    const refused = sowtide('windows', place, '--warming', '15');
    assert.equal(refused.code, 2);
    assert.match(refused.err, /--warming/);
  });

  it('stands in the garden and goes through plan, outlook and export', () => {
    const text = readFileSync(join(root, 'demo', 'garden.toml'), 'utf8');
    const file = join(directory, 'warm.toml'), garden = join(directory, 'warm.sowtide');
    writeFileSync(file, text.replace('[site]\n', '[site]\nwarming_c = 1.5\n'));
    must('new', garden, '--from', file);
    must('weather', garden, 'add', seattle);
    assert.match(must('outlook', garden, '--date', '2026-03-01'), /1\.5 °C warmer by choice/);
    assert.match(must('plan', garden, '--date', '2026-03-01', '--time-limit', '2'), /1\.5 °C warmer, as the garden states/);
    const out = join(directory, 'warm-export');
    must('export', garden, out);
    assert.match(readFileSync(join(out, 'garden.toml'), 'utf8'), /warming_c = 1\.5/);
    assert.match(mustJson('windows', 'windows', garden, '--crop', 'beet', '--warming', '2').weather, /2 °C warmer by choice/);
  });

  it('is refused in a garden where it is out of range', () => {
    const file = join(directory, 'hot.toml');
    writeFileSync(file, readFileSync(join(root, 'demo', 'garden.toml'), 'utf8').replace('[site]\n', '[site]\nwarming_c = 20\n'));
    const refused = sowtide('new', join(directory, 'hot.sowtide'), '--from', file);
    assert.equal(refused.code, 1);
    assert.match(refused.err, /site\.warming_c/);
  });
});

describe('the weather of the season', () => {
  // One radish, sown on 20 March, seen on a day with ten days of weather beside it; no outside source, but a
  // seedling in warm soil cannot be later than one in cold soil.
  const emergence = (name, firstDay, dayCount, warm, options, date) => {
    const garden = join(directory, `${name}.sowtide`);
    const text = `name = "One row"
${northmere}[[beds]]
id = "b1"
name = "Long"
length_m = 4
width_m = 1.2
sun = "full"
kind = "raised"
[[stands]]
id = "s1"
crop = "radish"
method = "direct-sow"
sow = "2026-03-20"
clumps = 60
plants_per_clump = 1
spacing_mm = 40
bed = "b1"
from_m = 0
to_m = 1
`;
    writeFileSync(join(directory, `${name}.toml`), text);
    must('new', garden, '--from', join(directory, `${name}.toml`));
    must('log', garden, 'sown', 's1', '--count', '60', '--date', '2026-03-20');
    const rows = ['date,tmin,tmax,rain'];
    for (let day = 0; day < dayCount; day += 1) {
      const on = new Date(Date.parse(firstDay) + day * 86400000).toISOString().slice(0, 10);
      rows.push(`${on},${warm ? 12 + (day % 3) : (day % 3)},${warm ? 24 + (day % 2) : 5 + (day % 2)},0`);
    }
    writeFileSync(join(directory, `${name}.csv`), `${rows.join('\n')}\n`);
    must('weather', garden, 'add', join(directory, `${name}.csv`), ...options);
    const stand = mustJson('outlook', 'outlook', garden, '--date', date).stands[0];
    return dayOfYear(stand.events.find((each) => each.name === 'emerge').p50.slice(5));
  };

  it('reaches the outlook as a forecast', () => {
    const cold = emergence('cold-forecast', '2026-03-21', 10, false, ['--forecast'], '2026-03-20');
    const warm = emergence('warm-forecast', '2026-03-21', 10, true, ['--forecast'], '2026-03-20');
    assert.ok(warm <= cold - 4, `${warm} and ${cold}`);
  });

  it('reaches the outlook as a record that begins in the season', () => {
    const cold = emergence('cold-record', '2026-03-01', 40, false, [], '2026-04-09');
    const warm = emergence('warm-record', '2026-03-01', 40, true, [], '2026-04-09');
    assert.ok(warm <= cold - 8, `${warm} and ${cold}`);
  });
});

describe('what is found in the weather', () => {
  // Forty days of April, one of them with a maximum that no April has; no outside source but that check itself
  // (I. Durre and others 2010: 25 °C above both neighbours).
  const days = (from, value) => ['date,tmin,tmax,rain', ...Array.from({ length: 40 }, (_, day) => {
    const on = new Date(Date.parse(from) + day * 86400000).toISOString().slice(0, 10);
    return `${on},${3 + (day % 4)},${day === 20 ? value : 12 + (day % 5)},${day % 3}`;
  })].join('\n') + '\n';
  const spiked = join(directory, 'spiked.csv');
  writeFileSync(spiked, days('2026-04-01', 52));
  const spike = { date: '2026-04-21', variable: 'tmax', value: 52, check: 'spike', action: 'removed' };
  const found = (garden) => mustJson('weather-show', 'weather', garden, 'show').found_at_import.map(({ detail, ...rest }) => {
    assert.ok(detail);
    return rest;
  });

  it('is kept, shown later, and goes through an export', () => {
    const garden = join(directory, 'spiked.sowtide'), again = join(directory, 'spiked-again.sowtide');
    must('new', garden, '--place', 'Oxford');
    must('weather', garden, 'add', spiked);
    assert.deepEqual(found(garden), [spike]);
    must('weather', garden, 'add', spiked);
    assert.deepEqual(found(garden), [spike], 'twice is once');
    assert.match(must('weather', garden, 'show'), /what was found when it came in\n\s+1 x spike \(removed\)/);
    must('export', garden, join(directory, 'spiked-export'));
    must('new', again, '--from', join(directory, 'spiked-export', 'garden.toml'));
    assert.deepEqual(found(again), [spike]);
  });

  it('is found in a record that a description names', () => {
    const file = join(directory, 'named.toml'), garden = join(directory, 'named.sowtide');
    writeFileSync(file, `name = "Named"\n${northmere.slice(0, northmere.indexOf('[normals]'))}[weather]\nfile = "spiked.csv"\n`);
    must('new', garden, '--from', file);
    assert.deepEqual(found(garden), [spike]);
    const tmax = mustJson('weather-show', 'weather', garden, 'show').variables.find((each) => each.name === 'tmax');
    assert.deepEqual([tmax.observed, tmax.filled, tmax.missing], [39, 0, 1]);
  });

  it('leaves what is there when asked to', () => {
    const garden = join(directory, 'two.sowtide'), second = join(directory, 'second.csv');
    writeFileSync(second, days('2026-04-11', 15));
    must('new', garden, '--place', 'Oxford');
    must('weather', garden, 'add', spiked);
    const added = mustJson('weather-add', 'weather', garden, 'add', '--only-missing', second).files[0];
    // Ten days at the end, and the maximum that was removed.
    assert.deepEqual([added.values_added, added.values_replaced], [3 * 10 + 1, 0]);
    assert.ok(added.values_kept > 20, `${added.values_kept}`);
  });
});

describe('a record of weather', () => {
  const winter = (name, heading) => {
    const file = join(directory, name);
    const rows = Array.from({ length: 20 }, (_, day) => `2026-01-${String(day + 1).padStart(2, '0')},${28 + (day % 3)},${38 + (day % 4)},0`);
    writeFileSync(file, `${heading}\n${rows.join('\n')}\n`);
    return file;
  };

  // Normals of Oxford (Met Office): January 2 to 8 °C; 38 to 41 °F are 3 to 5 °C.
  it('in degrees Fahrenheit that does not say so is refused', () => {
    const garden = join(directory, 'unit.sowtide');
    must('new', garden, '--place', 'Oxford');
    const refused = sowtide('weather', garden, 'add', winter('bare.csv', 'date,tmin,tmax,rain'));
    assert.equal(refused.code, 1);
    assert.match(refused.err, /Fahrenheit.*--unit temperature=F/s);
    must('weather', garden, 'add', join(directory, 'bare.csv'), '--unit', 'temperature=F', '--unit', 'rain=in');
    assert.equal(mustJson('weather-show', 'weather', garden, 'show').days, 20);
  });

  it('that lies ahead is refused in a description too', () => {
    const file = join(directory, 'ahead.toml');
    writeFileSync(join(directory, 'ahead.csv'), 'date,tmin_c,tmax_c,rain_mm\n2199-01-01,1,5,0\n2199-01-02,1,5,0\n');
    writeFileSync(file, `name = "Ahead"\n${northmere.slice(0, northmere.indexOf('[normals]'))}[weather]\nfile = "ahead.csv"\n`);
    const refused = sowtide('new', join(directory, 'ahead.sowtide'), '--from', file);
    assert.equal(refused.code, 1);
    assert.match(refused.err, /observed on 2199-01-01, after today/);
  });

  it('may be the weather of a figure', () => {
    const garden = join(directory, 'figure.sowtide');
    must('new', garden, '--place', '51.76,-1.26');
    const record = join(root, 'tests', 'published', 'records', 'milwaukee_1991_2020.csv.gz');
    must('weather', garden, 'add', record);
    const inputs = ['threshold_c=0', 'probability=0.5'];
    const byGarden = mustJson('figure', 'figure', 'frost-dates', `weather=${garden}`, ...inputs);
    const byFile = mustJson('figure', 'figure', 'frost-dates', `weather=${record}`, ...inputs);
    assert.deepEqual(byGarden.result, byFile.result);
  });
});

describe('copy', () => {
  it('makes a whole copy, and writes over nothing', () => {
    const garden = join(directory, 'original.sowtide'), copy = join(directory, 'copied.sowtide');
    must('new', garden, '--from', join(root, 'demo', 'garden.toml'));
    mustJson('copy', 'copy', garden, copy);
    for (const file of [garden, copy]) must('export', file, `${file}-export`);
    assert.deepEqual(contents(`${copy}-export`), contents(`${garden}-export`));
    assert.equal(sowtide('copy', garden, copy).code, 1);
  });
});

describe('weather show', () => {
  it('tells winter chill and heat spells, of made years where there is no record', () => {
    const garden = join(directory, 'plain.sowtide');
    must('new', garden, '--place', 'Oxford');
    const made = mustJson('weather-show', 'weather', garden, 'show');
    assert.equal(made.chill.from_made_years, true);
    const [most, half, least] = made.chill.reached.map((each) => each.hours);
    assert.ok(most > half && half > least && least > 0);
    assert.match(must('weather', garden, 'show'), /Winter chill \(hours from/);
    assert.match(must('weather', garden, 'show'), /Heat spells/);
    const [frost, cool] = made.hours_below;
    assert.deepEqual([frost.threshold_c, cool.threshold_c], [0, 10]);
    for (let month = 0; month < 12; month += 1) assert.ok(frost.by_month[month] <= cool.by_month[month] && cool.by_month[month] <= 744);
    assert.ok(frost.by_month[0] > frost.by_month[6]);
  });
});

describe('figure', () => {
  it('shows a long series by month, and all of it as JSON', () => {
    const inputs = ['figure', 'soil-temperature', `weather=${seattle}`, 'lat=47.4', 'lon=-122.3', 'depth_mm=50'];
    const text = must(...inputs);
    assert.match(text, /means of each month.*--json gives every day/);
    const numbers = text.slice(0, text.indexOf('worked out'));
    assert.ok(Math.max(...numbers.split('\n').map((line) => line.length)) < 200);
    assert.ok(numbers.split('\n').length < 80);
    const { result } = mustJson('figure', ...inputs);
    assert.ok(result.date.length > 1000);
  });

  it('counts chill of one day by the published weights of its hours', () => {
    // E. A. Richardson, S. D. Seeley and D. R. Walker 1974, HortScience 9:331-332: 2.5 to 9.1 °C counts one unit an hour.
    const { result } = mustJson('figure', 'figure', 'chill', 'lat=52', 'date=2026-01-10', 'tmin_c=6', 'tmax_c=6');
    assert.equal(result.utah_units, 24);
    assert.equal(result.chill_hours, 24);
  });

  it('counts chill of the days asked for of a record, and no others', () => {
    const chill = (...more) => sowtide('figure', 'chill', 'lat=47.4', `weather=${seattle}`, ...more, '--json');
    const winter = JSON.parse(chill('from=2012-11-01', 'to=2013-02-28').out).result;
    assert.equal(winter.days, 120);
    assert.ok(winter.chill_hours > 500 && winter.chill_hours < 120 * 24);
    assert.notEqual(chill('from=1950-01-01').code, 0);
  });
});

describe('places', () => {
  it('are not called near from a hundred kilometres on', () => {
    const far = mustJson('windows', 'windows', '80,-20', '--crop', 'beet');
    assert.doesNotMatch(far.place, /near/);
    assert.match(far.place, /\d+ km away/);
    assert.match(mustJson('windows', 'windows', '47.5,-122.1,100', '--crop', 'beet').place, /near/);
  });
});
