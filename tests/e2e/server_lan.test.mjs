// `serve --lan` as another machine of the home network meets it: in a network of its own (Linux namespaces), with one made-up
// private address. Says that it skipped where the system does not allow that.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { it } from 'node:test';
import { fileURLToPath } from 'node:url';

const inNetwork = (command) =>
  spawnSync('unshare', ['-rn', 'sh', '-c', `ip link set lo up && ip addr add 10.9.8.7/32 dev lo && ${command}`], { encoding: 'utf8', timeout: 60000 });

for (const how of ['plain', 'encrypted']) {
  it(`lets a device of the home network in by its code only, and out again (${how})`, (test) => {
    if (inNetwork('true').status !== 0) return test.skip('no network of its own can be made here');
    const walk = join(dirname(fileURLToPath(import.meta.url)), 'server_lan_walk.mjs');
    const done = inNetwork(`exec "${process.execPath}" "${walk}" ${how}`);
    assert.equal(done.status, 0, `${done.stdout}\n${done.stderr}`);
    assert.match(done.stdout, /walked to the end/);
  });
}
