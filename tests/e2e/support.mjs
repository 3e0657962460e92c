// Runs the real binary for the end-to-end tests. SOWTIDE names another binary than build/release/sowtide.
import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
export const program = process.env.SOWTIDE ?? join(root, 'build', 'release', 'sowtide');
/** `require` as from the web app, whose packages serve these tests too. */
export const requireFromWeb = createRequire(join(root, 'web', 'package.json'));
export const seattle = join(root, 'web', 'node_modules', 'vega-datasets', 'data', 'seattle-weather.csv');
export const bothCities = join(dirname(seattle), 'weather.csv');

/** An invented place with its normals, as it begins a garden's description. */
export const northmere = `[site]
name = "Northmere"
lat = 47.5
lon = 10.0
elevation_m = 50
[normals]
tmax_c = [6, 8, 11, 14, 18, 21, 24, 24, 21, 15, 10, 7]
tmin_c = [0, 0, 2, 4, 7, 10, 12, 12, 9, 6, 3, 1]
precip_mm = [60, 50, 50, 45, 55, 50, 30, 30, 45, 75, 80, 80]
`;

/** What the table asks for, in the description of a garden. */
export const beetWanted = `[[wants]]
id = "roots"
crop = "beet"
amount_per_week = 300
unit = "grams"
from = "07-01"
to = "10-01"
`;

/** A stand that is to be sown in place, in the description of a garden. */
export const standToml = (stand) =>
  `[[stands]]\n${Object.entries({ method: 'direct-sow', ...stand }).map(([key, value]) => `${key} = ${JSON.stringify(value)}\n`).join('')}`;

/** Runs `sowtide …args`; never throws on a bad exit. */
export function sowtide(...args) {
  const done = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 64 << 20 });
  if (done.error) throw done.error;
  return { code: done.status, out: done.stdout, err: done.stderr };
}

/** Runs and expects success; returns stdout. */
export function must(...args) {
  const done = sowtide(...args);
  if (done.code !== 0) throw new Error(`sowtide ${args.join(' ')}: exit ${done.code}\n${done.err}${done.out.slice(0, 2000)}`);
  return done.out;
}

/** Runs with --json, expects success and an answer that fits docs/api/<schema>.schema.json. */
export function mustJson(schema, ...args) {
  const answer = JSON.parse(must(...args, '--json'));
  const problems = schemaProblems(schema, answer);
  if (problems) throw new Error(`sowtide ${args.join(' ')}: not ${schema}: ${problems}`);
  return answer;
}

const Ajv2020 = requireFromWeb('ajv/dist/2020.js').default;
const ajv = new Ajv2020({ allErrors: true });
const validators = new Map();

/** Text of what does not fit the schema, or ''. */
export function schemaProblems(name, value) {
  if (!validators.has(name)) {
    validators.set(name, ajv.compile(JSON.parse(readFileSync(join(root, 'docs', 'api', `${name}.schema.json`), 'utf8'))));
  }
  const validate = validators.get(name);
  return validate(value) ? '' : ajv.errorsText(validate.errors.slice(0, 5));
}

/** A fresh directory, removed when the process ends. */
export function scratch() {
  const directory = mkdtempSync(join(tmpdir(), 'sowtide-e2e-'));
  process.on('exit', () => rmSync(directory, { recursive: true, force: true }));
  return directory;
}

/** All files of a directory with their bytes, for comparing exports. */
export function contents(directory) {
  return Object.fromEntries(readdirSync(directory).sort().map((name) => [name, readFileSync(join(directory, name), 'latin1')]));
}
