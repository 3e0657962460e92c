// One entry at the bed → outlook and worklist as the page reads them, with 40 beds and 200 stands.
//
//   node bench/serve_latency.mjs [entries] [program]
//
// Makes a garden of that size at Seattle with its daily record of 2012 to 2015 (as vega-datasets carries it) and serves it;
// then for each entry: writes it, and reads /api/today and /api/outlook beside each other, packed, as the page does. The
// time runs from sending the entry to having both answers parsed. Prints milliseconds: median, 95th percentile, worst, and
// the program's own processor time an entry.
import { readFileSync } from 'node:fs';
import { entryOf, kProgram, serveLargeGarden, within } from './large_garden.mjs';

const entries = Number(process.argv[2] ?? 60);
const { url, pid, stop } = await serveLargeGarden(process.argv[3] ?? kProgram);

/** Processor time of the program so far, ms (fields 14 and 15 of /proc/PID/stat, in hundredths of a second). */
function processorTime() {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1].split(' ');
  return 10 * (Number(fields[11]) + Number(fields[12]));
}

const read = async (path) => (await fetch(url + path)).json();
async function enter(i) {
  const event = entryOf(i);
  const begin = performance.now();
  const written = await fetch(`${url}/api/events`, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify([event]) });
  if (!written.ok) throw new Error(await written.text());
  const [, outlook] = await Promise.all([read('/api/today'), read('/api/outlook')]);
  if (outlook.stands.find((each) => each.id === event.stand).state !== 'sown') throw new Error(`${event.stand} does not show its entry`);
  return performance.now() - begin;
}

try {
  const first = performance.now();
  await read('/api/outlook');
  const cold = performance.now() - first;
  await enter(0);
  const before = processorTime();
  const times = [];
  for (let i = 1; i <= entries; ++i) times.push(await enter(i));
  const cpu = (processorTime() - before) / entries;
  const at = (share) => within(share, times).toFixed(0);
  console.log(`first outlook ${cold.toFixed(0)} ms; ${entries} entries: median ${at(0.5)} ms, p95 ${at(0.95)} ms, worst ${at(1)} ms; processor ${cpu.toFixed(0)} ms an entry`);
} finally {
  stop();
}
