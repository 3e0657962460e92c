// Run by server_lan.test.mjs inside a network whose only addresses are 127.0.0.1 and 10.9.8.7. With the word "encrypted"
// all of it goes over TLS, with a certificate of an authority of this home.
import assert from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { request as plainRequest } from 'node:http';
import { request as encryptedRequest } from 'node:https';
import { join } from 'node:path';
import { must, program, scratch, sowtide } from './support.mjs';

const kHome = '10.9.8.7';
const encrypted = process.argv.includes('encrypted');
const scheme = encrypted ? 'https' : 'http';
const session = encrypted ? '__Host-sowtide_session' : 'sowtide_session';
const directory = scratch();
const garden = join(directory, 'home.sowtide');
writeFileSync(join(directory, 'home.toml'), 'name = "Home"\n[site]\nname = "Home"\nlat = 47.0\nlon = 8.0\nelevation_m = 400\n[normals]\ntmax_c = [3,5,10,14,19,22,24,24,19,14,8,4]\ntmin_c = [-2,-2,1,4,9,12,14,14,10,7,2,-1]\nprecip_mm = [60,60,70,80,110,120,110,120,90,80,70,70]\n[[beds]]\nid = "b"\nname = "Bed"\nlength_m = 3.0\nwidth_m = 1.0\n[[stands]]\nid = "s1"\ncrop = "beet"\nmethod = "direct-sow"\nsow = 2027-04-10\nclumps = 10\nspacing_mm = 120.0\nbed = "b"\nfrom_m = 0.0\nto_m = 1.0\ncells = 10\n');
const certificates = join(directory, 'certificates');
if (encrypted) must('certificate', certificates);
const ca = encrypted ? readFileSync(join(certificates, 'authority.pem')) : undefined;
const request = encrypted ? encryptedRequest : plainRequest;
const tls = encrypted ? ['--certificate', join(certificates, 'server.pem'), '--key', join(certificates, 'server-key.pem')] : [];
must('new', garden, '--from', join(directory, 'home.toml'));

async function serve(...more) {
  const child = spawn(program, ['serve', garden, '--port', '0', '--lan', '--date', '2027-04-20', '--json', ...(more.includes('--key') ? [] : tls), ...more], { stdio: ['ignore', 'pipe', 'inherit'] });
  process.on('exit', () => child.kill());
  const lines = await new Promise((resolve) => {
    let out = '';
    child.stdout.on('data', (piece) => { out += piece; if (out.split('\n').length > 2) resolve(out.split('\n')); });
  });
  return { child, port: Number(new URL(JSON.parse(lines[0]).url).port), pairing: JSON.parse(lines[1]).pairing };
}
const stop = (server) => new Promise((resolve) => { server.child.on('exit', resolve); server.child.kill('SIGINT'); });

/** Asks over one of the two addresses. `until`: gives the stream back when it has begun. */
function ask(server, method, path, { at = kHome, body, headers = {}, stream = false } = {}) {
  const sent = body === undefined ? undefined : JSON.stringify(body);
  return new Promise((resolve, reject) => {
    const asked = request({ host: at, port: server.port, method, path, ca, servername: '', agent: false, headers: { ...(sent ? { 'Content-Type': 'application/json' } : {}), ...headers } }, (answer) => {
      if (stream && answer.statusCode === 200) return resolve(answer);
      let text = '';
      answer.on('data', (piece) => { text += piece; });
      answer.on('end', () => resolve({ status: answer.statusCode, headers: answer.headers, body: text }));
    });
    asked.on('error', reject);
    asked.end(sent);
  });
}
const status = async (...how) => (await ask(...how)).status;
const cookieOf = (answer) => answer.headers['set-cookie'][0].split(';')[0];

let server = await serve();
const { code, url } = server.pairing;
assert.equal(url, `${scheme}://${kHome}:${server.port}/pair#${code}`);

// The machine itself needs no pairing.
assert.equal(await status(server, 'GET', '/api/garden', { at: '127.0.0.1' }), 200);

// Another machine gets nothing of the garden, whatever it asks.
for (const [method, path, body] of [['GET', '/api/garden'], ['GET', '/api/changes'], ['GET', '/api/openapi.json'], ['GET', '/api/devices'], ['GET', '/api/nothing'], ['POST', '/api/events', []], ['POST', '/api/devices/code', {}], ['DELETE', '/api/devices/x']]) {
  const answer = await ask(server, method, path, { body });
  assert.equal(answer.status, 401, `${method} ${path}`);
  assert.equal(JSON.parse(answer.body).error.code, 'usage');
}
const front = await ask(server, 'GET', '/');
assert.deepEqual([front.status, front.headers.location], [303, '/pair']);
assert.equal(await status(server, 'GET', '/pair'), 200);
assert.equal(await status(server, 'GET', '/api/garden', { headers: { Cookie: `${session}=` + '0'.repeat(64) } }), 401);

// A name made to point here is not answered, nor another page's try at pairing.
assert.equal(await status(server, 'GET', '/pair', { headers: { Host: `evil.example:${server.port}` } }), 421);
assert.equal(await status(server, 'POST', '/api/pair', { body: { code }, headers: { Origin: 'http://evil.example' } }), 403);

// The code pairs once; its cookie is kept from scripts and from other sites.
assert.equal(await status(server, 'POST', '/api/pair', { body: { code: 'AAAA-AAAA' } }), 403);
const paired = await ask(server, 'POST', '/api/pair', { body: { code, name: 'Phone' } });
assert.equal(paired.status, 200, paired.body);
assert.match(paired.headers['set-cookie'][0], new RegExp(`^${session}=[0-9a-f]{64}; Path=/; Max-Age=\\d+; HttpOnly; SameSite=Strict${encrypted ? '; Secure' : ''}$`));
assert.equal(await status(server, 'POST', '/api/pair', { body: { code } }), 403);
const Cookie = cookieOf(paired);
assert.equal(await status(server, 'GET', '/api/garden', { headers: { Cookie } }), 200);
assert.equal(await status(server, 'GET', '/', { headers: { Cookie } }), 200);
assert.equal(await status(server, 'POST', '/api/events', { body: [{ id: 'e1', date: '2027-04-20', kind: 'noted', text: 'hello' }], headers: { Cookie } }), 200);
for (const Origin of [`${scheme}://evil.example`, `${encrypted ? 'http' : 'https'}://${kHome}:${server.port}`])
  assert.equal(await status(server, 'POST', '/api/events', { body: [], headers: { Cookie, Origin } }), 403, Origin);
assert.equal(await status(server, 'POST', '/api/events', { body: [], headers: { Cookie, Origin: `${scheme}://${kHome}:${server.port}` } }), 200);
const calendar = (await ask(server, 'GET', '/api/print/calendar', { headers: { Cookie } })).body;
assert.ok(calendar.replaceAll('\r\n ', '').includes(`${scheme}://${kHome}:${server.port}/#/stand/s1`), calendar.slice(0, 600));
assert.match((await ask(server, 'GET', '/api/stands/s1/code', { headers: { Cookie } })).body, new RegExp(`${scheme}://${kHome}:${server.port}/#/stand/s1`));

// Only the machine itself gives out codes.
assert.equal(await status(server, 'POST', '/api/devices/code', { body: {}, headers: { Cookie } }), 403);
const second = JSON.parse((await ask(server, 'POST', '/api/devices/code', { at: '127.0.0.1', body: {} })).body);
assert.match(second.svg, /^<svg/);
const other = cookieOf(await ask(server, 'POST', '/api/pair', { body: { code: second.code } }));

// Devices are kept where only the owner reads, without their tokens, and outlive the server.
assert.equal(statSync(`${garden}.devices`).mode & 0o777, 0o600);
assert.ok(!readFileSync(`${garden}.devices`, 'utf8').includes(Cookie.split('=')[1]));
assert.equal(await stop(server), 0);
server = await serve();
assert.equal(await status(server, 'GET', '/api/garden', { headers: { Cookie } }), 200);

// A forgotten device is out at once, its open stream too.
const stream = await ask(server, 'GET', '/api/changes', { headers: { Cookie }, stream: true });
const ended = new Promise((resolve) => { stream.on('end', resolve); stream.on('close', resolve); stream.resume(); });
const { device } = JSON.parse(paired.body);
const left = JSON.parse((await ask(server, 'DELETE', `/api/devices/${device}`, { headers: { Cookie: other } })).body);
assert.equal(left.devices.length, 1);
await ended;
assert.equal(await status(server, 'GET', '/api/garden', { headers: { Cookie } }), 401);
assert.equal(await status(server, 'GET', '/api/garden', { headers: { Cookie: other } }), 200);

// Guessing is put off.
let last;
for (let i = 0; i < 15; ++i) last = await ask(server, 'POST', '/api/pair', { body: { code: 'AAAA-AAAA' } });
assert.deepEqual([last.status, last.headers['retry-after']], [429, '60']);
await stop(server);

server = await serve('--forget-devices');
assert.equal(await status(server, 'GET', '/api/garden', { headers: { Cookie: other } }), 401);
await stop(server);

// The words on the terminal, for people.
const child = spawn(program, ['serve', garden, '--port', '0', '--lan', ...tls], { stdio: ['ignore', 'pipe', 'inherit'] });
process.on('exit', () => child.kill());
let said = '';
for await (const piece of child.stdout) if ((said += piece).includes('for one device.')) break;
assert.equal(said.includes('Traffic in the home network is not encrypted.'), !encrypted, said);
assert.match(said, new RegExp(`open ${scheme}://${kHome}:\\d+/pair and give the code`));
await stop({ child });

// With a certificate that does not name the address, a name in it leads here; without one nothing does.
const own = (names) => {
  const [file, key] = ['own.pem', 'own.key'].map((name) => join(directory, name));
  const done = spawnSync('openssl', ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes', '-keyout', key, '-out', file, '-subj', '/CN=own', '-addext', `subjectAltName=${names}`]);
  assert.equal(done.status, 0, String(done.stderr));
  return ['--certificate', file, '--key', key];
};
if (encrypted) {
  server = await serve(...own('IP:127.0.0.1,DNS:garden.example'));
  assert.match(server.pairing.url, /^https:\/\/garden\.example:\d+\/pair#/);
  await stop(server);
  const refused = sowtide('serve', garden, '--port', '0', '--lan', ...own('IP:127.0.0.1,DNS:localhost'));
  assert.equal(refused.code, 1);
  assert.match(refused.err, /--certificate: the certificate does not name 10\.9\.8\.7, where devices find this machine\. Make a new one/);
}
console.log('walked to the end');
