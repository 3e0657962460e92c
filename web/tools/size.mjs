// Holds the page's script to its budget: 200 kB compressed (DESIGN, section 7).

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const kBudgetBytes = 200 * 1000;
const assets = fileURLToPath(new URL('../dist/assets/', import.meta.url));
let total = 0;
for (const name of readdirSync(assets)) {
  const bytes = gzipSync(readFileSync(assets + name), { level: 9 }).length;
  if (name.endsWith('.js')) total += bytes;
  console.log(`${name}  ${(bytes / 1000).toFixed(1)} kB compressed`);
}
console.log(`script ${(total / 1000).toFixed(1)} kB of ${kBudgetBytes / 1000} kB`);
if (total > kBudgetBytes) process.exit(1);
