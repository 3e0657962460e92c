// One entry at the bed → outlook and worklist as the page reads them, with 40 beds and 200 stands.
//
//   node bench/serve_latency.mjs [entries] [program]
//
// Makes a garden of that size at Seattle with its daily record of 2012 to 2015 (as vega-datasets carries it) and serves it;
// then for each entry: writes it, and reads /api/today and /api/outlook beside each other, packed, as the page does. The
// time runs from sending the entry to having both answers parsed. Prints milliseconds: median, 95th percentile, worst, and
// the program's own processor time an entry.
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const entries = Number(process.argv[2] ?? 60);
const program = process.argv[3] ?? join(root, 'build', 'release', 'sowtide');
const record = join(root, 'web', 'node_modules', 'vega-datasets', 'data', 'seattle-weather.csv');
const kBeds = 40;
const kStands = 200;
const kCrops = ['beet', 'carrot', 'radish', 'lettuce', 'spinach', 'bush-bean', 'pea', 'turnip', 'kale', 'leek'];

function gardenText() {
  const lines = ['name = "Large"', '[site]', 'name = "Large"', 'lat = 47.45', 'lon = -122.3', 'elevation_m = 122', '[normals]',
    'tmax_c = [8,10,12,15,19,22,26,26,22,16,11,8]', 'tmin_c = [2,2,4,6,9,12,14,14,12,8,5,2]', 'precip_mm = [142,89,94,69,48,37,18,22,38,88,167,145]'];
  for (let i = 0; i < kBeds; ++i) lines.push('[[beds]]', `id = "b${i}"`, `name = "Bed ${i}"`, 'length_m = 10.0', 'width_m = 1.2');
  for (let i = 0; i < kStands; ++i) {
    const sow = new Date(Date.UTC(2015, 2, 15 + (i * 7) % 120)).toISOString().slice(0, 10);
    lines.push('[[stands]]', `id = "s${i}"`, `crop = "${kCrops[i % kCrops.length]}"`, 'method = "direct-sow"', `sow = ${sow}`, 'clumps = 40',
      'spacing_mm = 150.0', `bed = "b${i % kBeds}"`, `from_m = ${2 * Math.floor(i / kBeds)}.0`, `to_m = ${2 * Math.floor(i / kBeds) + 2}.0`, 'cells = 40');
  }
  return lines.join('\n');
}

function must(...args) {
  const done = spawnSync(program, args, { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`${args.join(' ')}: ${done.stderr}`);
}

/** Processor time of a process so far, ms (fields 14 and 15 of /proc/PID/stat, in hundredths of a second). */
function processorTime(pid) {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1].split(' ');
  return 10 * (Number(fields[11]) + Number(fields[12]));
}

const directory = mkdtempSync(join(tmpdir(), 'sowtide-latency-'));
const garden = join(directory, 'large.sowtide');
writeFileSync(join(directory, 'large.toml'), gardenText());
must('new', garden, '--from', join(directory, 'large.toml'));
must('weather', garden, 'add', record);
const server = spawn(program, ['serve', garden, '--port', '0', '--date', '2015-06-15', '--json'], { stdio: ['ignore', 'pipe', 'inherit'] });
const url = await new Promise((resolve) => server.stdout.once('data', (line) => resolve(JSON.parse(String(line).split('\n')[0]).url)));

const read = async (path) => (await fetch(url + path)).json();
async function enter(i) {
  const stand = `s${(i * 37) % kStands}`;
  const event = { id: `bench-${i}`, date: '2015-06-14', kind: i < kStands ? 'sown' : 'noted', stand, count: 40 };
  const begin = performance.now();
  const written = await fetch(`${url}/api/events`, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify([event]) });
  if (!written.ok) throw new Error(await written.text());
  const [, outlook] = await Promise.all([read('/api/today'), read('/api/outlook')]);
  if (outlook.stands.find((each) => each.id === stand).state !== 'sown') throw new Error(`${stand} does not show its entry`);
  return performance.now() - begin;
}

try {
  const first = performance.now();
  await read('/api/outlook');
  const cold = performance.now() - first;
  await enter(0);
  const before = processorTime(server.pid);
  const times = [];
  for (let i = 1; i <= entries; ++i) times.push(await enter(i));
  const cpu = (processorTime(server.pid) - before) / entries;
  times.sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.ceil(share * times.length) - 1)].toFixed(0);
  console.log(`first outlook ${cold.toFixed(0)} ms; ${entries} entries: median ${at(0.5)} ms, p95 ${at(0.95)} ms, worst ${at(1)} ms; processor ${cpu.toFixed(0)} ms an entry`);
} finally {
  server.kill('SIGTERM');
  rmSync(directory, { recursive: true, force: true });
}
