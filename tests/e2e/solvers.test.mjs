// The program that a plan's bound comes from, written out by the real binary and solved by two solvers of others: GLPK
// and HiGHS. Both must find what we say of it (docs/models/plan.md, "The bound" and "Text for other solvers").
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { before, describe, it } from 'node:test';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, northmere, requireFromWeb, scratch } from './support.mjs';

// Solvers end within 1e-6 of what they hold for feasible, of sums over some thousand rows.
const relativeTolerance = 1e-6;
const nearly = (value) => relativeTolerance * (1 + Math.abs(value));
// Far above the second or two that each search takes: a solver that is not done by then fails the test.
const searchLimitS = 120;
const day = '2026-03-02';

/** HiGHS's proven optimum of a program in the LP format; `relaxed` lets whole numbers have parts. */
async function highsOptimum(file, relaxed) {
  // A solver of its own each time: one that has failed is not asked again.
  const solver = await requireFromWeb('highs')();
  const answer = solver.solve(readFileSync(file, 'utf8'), { solve_relaxation: relaxed, mip_rel_gap: 0, mip_abs_gap: 1e-7, time_limit: searchLimitS });
  assert.equal(answer.Status, 'Optimal');
  return answer.ObjectiveValue;
}

/** GLPK's proven optimum of a written program, likewise. */
function glpkOptimum(file, relaxed) {
  const how = [file.endsWith('.mps') ? '--freemps' : '--lp', ...(relaxed ? ['--nomip'] : ['--cuts', '--tmlim', String(searchLimitS)])];
  const done = spawnSync('glpsol', [...how, file, '-o', `${file}.out`], { encoding: 'utf8', maxBuffer: 64 << 20 });
  if (done.error) throw new Error('glpsol is missing (Debian package glpk-utils); scripts/setup installs it');
  assert.equal(done.status, 0, done.stdout.slice(-2000));
  const text = readFileSync(`${file}.out`, 'utf8');
  assert.match(text, /^Status: +(INTEGER )?OPTIMAL$/m);
  return Number(/^Objective: +\S+ = (\S+)/m.exec(text)[1]);
}

const bed = (id, lengthM, more = '') => `[[beds]]\nid = "${id}"\nlength_m = ${lengthM}\nwidth_m = 0.8\n${more}`;
const want = (crop, grams, from, to, more = '') =>
  `[[wants]]\nid = "w-${crop}"\ncrop = "${crop}"\namount_per_week = ${grams}\nunit = "grams"\nfrom = "${from}"\nto = "${to}"\n${more}`;
const gardens = {
  'two crops in one bed': { weeks: 20, text: bed('a', 1.2) + want('radish', 200, '05-01', '06-15') + want('lettuce', 300, '05-15', '07-01') },
  'two beds of different light': {
    weeks: 24,
    text: bed('a', 1) + bed('b', 1.5, 'sun = "partial"\n') + want('spinach', 250, '05-01', '06-15') + want('beet', 250, '07-01', '08-01'),
  },
  'a group of crops, one of them wanted for itself too': {
    weeks: 22,
    text:
      bed('a', 1.5) +
      `[[wants]]\nid = "green"\ngroup = "cooking-greens"\namount_per_week = 300\nunit = "grams"\nfrom = "05-15"\nto = "07-01"\n` +
      want('spinach', 100, '05-15', '06-20', 'priority = 2\n'),
  },
  'a tray on a mat': {
    weeks: 34,
    text:
      bed('a', 2) +
      `[[trays]]\nid = "t"\nname = "Mat"\ncells = 12\ncell_width_mm = 70\nplace = "heat_mat"\ntemp_c = 22\nmat_cells = 3\n` +
      want('tomato', 1500, '07-15', '09-30'),
  },
  'a store that holds carrots': {
    weeks: 26,
    store: true,
    text: bed('a', 1.5) + want('carrot', 300, '03-15', '08-15', 'waste_dislike = 2\n'),
  },
};

function madeGarden(directory, number, { text, store }) {
  const [toml, file] = ['toml', 'sowtide'].map((kind) => join(directory, `${number}.${kind}`));
  const stored = `[[stands]]\nid = "s1"\ncrop = "carrot"\nmethod = "direct-sow"\nsow = 2025-06-10\nclumps = 200\nspacing_mm = 40\nbed = "a"\nfrom_m = 0\nto_m = 1\n`;
  writeFileSync(toml, `name = "Solved"\n${northmere}${text}${store ? stored : ''}`);
  must('new', file, '--from', toml);
  if (store) {
    must('log', file, 'sown', 's1', '--date', '2025-06-10');
    must('log', file, 'discarded', 's1', '--date', '2026-02-20');
    must('log', file, 'stored', 's1', '--grams', '3000', '--text', 'fridge', '--target', 'lot1', '--date', '2026-02-20');
  }
  return file;
}

describe('the written program, by solvers of others', () => {
  const directory = scratch();
  // By garden, what whole clumps cost beyond parts of them.
  const priceOfWholeClumps = [];
  for (const [number, [name, garden]] of Object.entries(gardens).entries()) {
    describe(name, () => {
      const [lp, mps] = ['lp', 'mps'].map((kind) => join(directory, `${number}.${kind}`));
      let plan;
      before(() => {
        const file = madeGarden(directory, number, garden);
        const weeks = ['--date', day, '--weeks', String(garden.weeks)];
        for (const model of [lp, mps]) must('plan', file, ...weeks, '--write-model', model);
        plan = mustJson('plan', 'plan', file, ...weeks, '--discard', '--gap', '0');
      });

      it('has our bound for its relaxation, read from either format', async () => {
        assert.ok(plan.bound > 0, 'a garden in which nothing is at stake');
        const found = { 'HiGHS from LP': await highsOptimum(lp, true), 'GLPK from LP': glpkOptimum(lp, true), 'GLPK from MPS': glpkOptimum(mps, true) };
        for (const [by, value] of Object.entries(found)) assert.ok(Math.abs(value - plan.bound) <= nearly(plan.bound), `${by} says ${value}, we ${plan.bound}`);
      });

      // The placed plan satisfies every row of the program, whose weeks it can at best use as well as the program does.
      it('has an optimum between our bound and the cost of our placed plan, the same by both', async () => {
        const optimum = await highsOptimum(lp, false);
        const byGlpk = glpkOptimum(mps, false);
        assert.ok(Math.abs(byGlpk - optimum) <= nearly(optimum), `GLPK ${byGlpk}, HiGHS ${optimum}`);
        assert.ok(plan.bound <= optimum + nearly(optimum), `bound ${plan.bound}, optimum ${optimum}`);
        assert.ok(optimum <= plan.objective + nearly(optimum), `optimum ${optimum}, placed plan ${plan.objective}`);
        priceOfWholeClumps.push(optimum / plan.bound - 1);
      });
    });
  }

  it('asks for whole clumps in both formats: they cost something', () => {
    assert.equal(priceOfWholeClumps.length, Object.keys(gardens).length);
    assert.ok(Math.max(...priceOfWholeClumps) > 0.01, `at most ${Math.max(...priceOfWholeClumps)} of the bound`);
  });
});
