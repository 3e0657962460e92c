// Makes a garden file for the page's tests: the demo garden with stands and a few entries of its log, on real weather.
// Days are those of TODAY below; the outlooks are the program's own.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeFixture } from '../fixtures/make.mjs';

export const kToday = '2027-04-20';

const kDemo = fileURLToPath(new URL('../../demo/garden.toml', import.meta.url));
const kWeather = fileURLToPath(
  new URL('../node_modules/vega-datasets/data/seattle-weather.csv', import.meta.url),
);

function standToml(stand) {
  const lines = [
    '[[stands]]',
    `id = "${stand.id}"`,
    `crop = "${stand.crop}"`,
    `method = "${stand.method}"`,
    `sow = ${stand.sow}`,
    `clumps = ${stand.clumps}`,
    `plants_per_clump = ${stand.plants_per_clump.toFixed(1)}`,
    `spacing_mm = ${stand.spacing_mm.toFixed(1)}`,
    `bed = "${stand.bed}"`,
    `from_m = ${stand.from_m.toFixed(2)}`,
    `to_m = ${stand.to_m.toFixed(2)}`,
    `cells = ${stand.cells > 0 ? stand.cells : stand.clumps}`,
  ];
  if (stand.variety) lines.push(`variety = "${stand.variety}"`);
  if (stand.tray) lines.push(`tray = "${stand.tray}"`);
  return lines.join('\n');
}

/** Makes the file with the given program; returns its path. */
export function makeGarden(binary) {
  const directory = mkdtempSync(join(tmpdir(), 'sowtide-e2e-'));
  const demo = readFileSync(kDemo, 'utf8');
  const withoutStands = demo.split(/^\[\[stands\]\]/m)[0];
  const { stands } = makeFixture('season');
  const toml = join(directory, 'garden.toml');
  writeFileSync(toml, `${withoutStands}\n${stands.map(standToml).join('\n\n')}\n`);
  const garden = join(directory, 'garden.sowtide');
  const run = (...args) => execFileSync(binary, args, { encoding: 'utf8' });
  run('new', garden, '--from', toml);
  run('weather', garden, 'add', kWeather);
  for (const stand of stands.filter((each) => each.sow < kToday)) {
    run('log', garden, 'sown', stand.id, '--date', stand.sow, '--count', String(stand.cells || stand.clumps));
  }
  return garden;
}
