// A garden of 40 beds and 200 stands at Seattle with its daily record of 2012 to 2015 (as vega-datasets carries it), served by
// the program: what the benches of latency ask.
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
export const kProgram = join(root, 'build', 'release', 'sowtide');
const record = join(root, 'web', 'node_modules', 'vega-datasets', 'data', 'seattle-weather.csv');
const kBeds = 40;
export const kStands = 200;
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

function must(program, ...args) {
  const done = spawnSync(program, args, { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`${args.join(' ')}: ${done.stderr}`);
}

/** Makes the garden and serves it; `more` are further words for `serve`. Days to enter: up to 2015-06-15. */
export async function serveLargeGarden(program, more = []) {
  const directory = mkdtempSync(join(tmpdir(), 'sowtide-latency-'));
  const garden = join(directory, 'large.sowtide');
  writeFileSync(join(directory, 'large.toml'), gardenText());
  must(program, 'new', garden, '--from', join(directory, 'large.toml'));
  must(program, 'weather', garden, 'add', record);
  const server = spawn(program, ['serve', garden, '--port', '0', '--date', '2015-06-15', '--json', ...more], { stdio: ['ignore', 'pipe', 'inherit'] });
  const url = await new Promise((resolve) => server.stdout.once('data', (line) => resolve(JSON.parse(String(line).split('\n')[0]).url)));
  const stop = () => {
    server.kill('SIGTERM');
    rmSync(directory, { recursive: true, force: true });
  };
  return { url, pid: server.pid, stop };
}

/** The i-th entry: one stand after another is sown. */
export const entryOf = (i) => ({ id: `bench-${i}`, date: '2015-06-14', kind: i < kStands ? 'sown' : 'noted', stand: `s${(i * 37) % kStands}`, count: 40 });

/** The time within which a share of them lie, ms. */
export function within(share, times) {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)];
}
