// HiGHS on a written program: node bench/compare/solve-with-highs.mjs FILE.lp GAP SECONDS
//
// Prints its best value and its proven bound, or nothing where it found no plan. It is the npm package of the web app's
// tests (scripts/setup installs it): compiled to WebAssembly, on one core, so slower than HiGHS built for the machine.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const requireFromWeb = createRequire(fileURLToPath(new URL('../../web/package.json', import.meta.url)));
const [file, gap, seconds] = process.argv.slice(2);
let log = '';
const solver = await requireFromWeb('highs')({ print: (line) => (log += `${line}\n`) });
const options = { mip_rel_gap: Number(gap), time_limit: Number(seconds), output_flag: true, log_to_console: true };
const { ObjectiveValue: best } = solver.solve(readFileSync(file, 'utf8'), options);
const bound = /Dual bound +(\S+)/.exec(log)?.[1] ?? 'untold';
if (Number.isFinite(best)) console.log(`${best} ${bound}`);
