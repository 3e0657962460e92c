// Over HTTPS from an address of the home network, with the home's own authority trusted by Chromium as by a phone: the
// page is kept and opens anew without the server. Needs the real program, a network of its own (Linux namespaces) and
// certutil; says that it skipped without them.

import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { it } from 'node:test';
import { fileURLToPath } from 'node:url';
import { isReal } from './support.mjs';

function inNetwork(command, home) {
  const network = 'ip link set lo up && ip addr add 10.9.8.7/32 dev lo';
  return spawnSync('unshare', ['-rn', 'sh', '-c', `${network} && ${command}`], {
    encoding: 'utf8',
    timeout: 180_000,
    env: { ...process.env, HOME: home },
  });
}

it('opens anew without the server from an encrypted address of the home network', (test) => {
  if (!isReal()) return test.skip('the stand-in does not encrypt');
  const home = mkdtempSync(join(tmpdir(), 'sowtide-home-'));
  try {
    if (inNetwork('certutil -H >/dev/null 2>&1; test $? -ne 127', home).status !== 0)
      return test.skip('no network of its own can be made here, or there is no certutil');
    const walk = fileURLToPath(new URL('./encrypted_walk.mjs', import.meta.url));
    const done = inNetwork(`exec "${process.execPath}" "${walk}"`, home);
    assert.equal(done.status, 0, `${done.stdout}\n${done.stderr}`);
    assert.match(done.stdout, /walked to the end/);
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
});
