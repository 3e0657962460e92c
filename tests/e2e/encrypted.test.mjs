// `serve` over TLS on this machine. What a phone meets stands in server_lan_walk.mjs.
import assert from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { request as plainRequest } from 'node:http';
import { Agent, request } from 'node:https';
import { connect as connectPlain } from 'node:net';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { connect } from 'node:tls';
import { must, northmere, program, scratch, sowtide } from './support.mjs';

const directory = scratch();
const at = (name) => join(directory, name);
const garden = at('garden.sowtide');
const certificates = at('certificates');
const [certificate, key, authority] = ['server.pem', 'server-key.pem', 'authority.pem'].map((name) => join(certificates, name));

function serve(...more) {
  const child = spawn(program, ['serve', garden, '--port', '0', '--date', '2027-04-20', '--certificate', certificate, '--key', key, ...more], { stdio: ['ignore', 'pipe', 'inherit'] });
  process.on('exit', () => child.kill());
  const ended = new Promise((resolve) => child.on('exit', resolve));
  return new Promise((resolve, reject) => {
    let said = '';
    child.on('exit', () => reject(new Error(`ended: ${said}`)));
    child.stdout.on('data', (piece) => {
      said += piece;
      const port = /127\.0\.0\.1:(\d+)/.exec(said)?.[1];
      if (port) resolve({ said, port: Number(port), stop: () => (child.kill('SIGINT'), ended) });
    });
  });
}

let server;
let ca;
before(async () => {
  writeFileSync(at('garden.toml'), `name = "Northmere"\n${northmere}`);
  must('new', garden, '--from', at('garden.toml'));
  must('certificate', certificates);
  ca = readFileSync(authority);
  server = await serve();
});
after(() => server?.stop());

const origin = () => `https://127.0.0.1:${server.port}`;
function ask(method, path, { body, headers = {}, agent = false, stream = false } = {}) {
  const sent = body === undefined ? undefined : JSON.stringify(body);
  return new Promise((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port: server.port, method, path, ca, servername: '', agent, headers: { ...(sent ? { 'Content-Type': 'application/json' } : {}), ...headers } }, (answer) => {
      if (stream) return resolve(answer);
      let text = '';
      answer.on('data', (piece) => { text += piece; });
      answer.on('end', () => resolve({ status: answer.statusCode, headers: answer.headers, body: text, reused: asked.reusedSocket }));
    });
    asked.on('error', reject);
    asked.end(sent);
  });
}
const noted = (id, text = 'hello') => [{ id, date: '2027-04-20', kind: 'noted', text }];
const secure = (options) => new Promise((resolve, reject) => {
  const socket = connect({ host: '127.0.0.1', port: server.port, ca, servername: '', ...options }, () => resolve(socket));
  socket.on('error', reject);
});

describe('serve over TLS', () => {
  it('says so, and until when the certificate is good', () => {
    assert.match(server.said, /^Open https:\/\/127\.0\.0\.1:\d+ in a browser/);
    assert.match(server.said, /The certificate is good until \d{4}-\d{2}-\d{2}/);
  });

  it('answers the page and the garden to who trusts the authority, and asks for no encryption elsewhere', async () => {
    const page = await ask('GET', '/');
    assert.equal(page.status, 200);
    assert.equal(page.headers['strict-transport-security'], undefined);
    assert.equal((await ask('GET', '/api/garden')).status, 200);
    await assert.rejects(() => new Promise((resolve, reject) => request({ host: '127.0.0.1', port: server.port, path: '/' }, resolve).on('error', reject).end()), { code: 'UNABLE_TO_VERIFY_LEAF_SIGNATURE' });
  });

  it('keeps a connection for many requests, with large bodies among them', async () => {
    const agent = new Agent({ keepAlive: true, maxSockets: 1 });
    for (let i = 0; i < 10; ++i) {
      const text = 'x'.repeat(i % 2 ? 200_000 : 3);
      const written = await ask('POST', '/api/events', { body: noted(`k${i}`, text), agent, headers: { Origin: origin() } });
      assert.ok([200, 400].includes(written.status), written.body);
      const read = await ask('GET', '/api/events', { agent });
      assert.equal(read.status, 200);
      assert.equal(read.reused, true);
    }
    agent.destroy();
  });

  it('answers requests that came in one piece, though each waits for the worker', async () => {
    const socket = await secure();
    const kCount = 40;
    socket.write(`GET /api/garden HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\n\r\n`.repeat(kCount));
    let text = '';
    const all = new Promise((resolve) => socket.on('data', (piece) => { text += piece; if (text.split('HTTP/1.1 200').length === kCount + 1) resolve(); }));
    const late = new Promise((_, reject) => setTimeout(() => reject(new Error(`${text.split('HTTP/1.1 200').length - 1} of ${kCount} answered`)), 20_000).unref());
    await Promise.race([all, late]);
    socket.destroy();
  });

  it('answers many at once', async () => {
    const answers = await Promise.all(Array.from({ length: 48 }, (_, i) => (i % 3 ? ask('GET', '/api/garden') : ask('POST', '/api/events', { body: noted(`m${i}`) }))));
    assert.deepEqual([...new Set(answers.map((each) => each.status))], [200]);
  });

  it('sends events as they happen', async () => {
    const stream = await ask('GET', '/api/changes', { stream: true });
    assert.equal(stream.statusCode, 200);
    let heard = '';
    const told = (count) => new Promise((resolve) => {
      const look = () => { if (heard.split('event: revision').length > count) resolve(); };
      stream.on('data', (piece) => { heard += piece; look(); });
      look();
    });
    await told(1);
    for (let i = 0; i < 5; ++i) {
      await ask('POST', '/api/events', { body: noted(`s${i}`) });
      await told(i + 2);
    }
    stream.destroy();
  });

  it('refuses other origins and other hosts', async () => {
    for (const Origin of [`http://127.0.0.1:${server.port}`, 'https://evil.example', `https://127.0.0.1:${server.port + 1}`, 'null'])
      assert.equal((await ask('POST', '/api/events', { body: noted('o'), headers: { Origin } })).status, 403, Origin);
    const wrong = await ask('GET', '/', { headers: { Host: `evil.example:${server.port}` } });
    assert.equal(wrong.status, 421);
    assert.match(JSON.parse(wrong.body).error.remedy, new RegExp(`^Use https://127.0.0.1:${server.port}/ or https://localhost`));
  });

  it('speaks TLS 1.2 and 1.3, nothing older and nothing plain', async () => {
    for (const version of ['TLSv1.2', 'TLSv1.3']) {
      const socket = await secure({ minVersion: version, maxVersion: version });
      assert.equal(socket.getProtocol(), version);
      socket.destroy();
    }
    await assert.rejects(() => secure({ minVersion: 'TLSv1', maxVersion: 'TLSv1.1', ciphers: 'ALL:@SECLEVEL=0' }), { code: 'ECONNRESET' });
    await assert.rejects(() => new Promise((resolve, reject) => plainRequest({ host: '127.0.0.1', port: server.port, path: '/', agent: false }, resolve).on('error', reject).end()));
  });

  it('is not held up by connections that say nothing', async () => {
    const silent = await Promise.all(Array.from({ length: 20 }, () => new Promise((resolve) => { const socket = connectPlain(server.port, '127.0.0.1', () => resolve(socket)); })));
    assert.equal((await ask('GET', '/api/garden')).status, 200);
    for (const socket of silent) socket.destroy();
  });

  it('stops when asked to, with streams open and connections idle', async () => {
    const agent = new Agent({ keepAlive: true });
    await ask('GET', '/api/garden', { agent });
    const stream = await ask('GET', '/api/changes', { stream: true });
    const closed = new Promise((resolve) => { stream.on('close', resolve); stream.resume(); });
    const began = Date.now();
    assert.equal(await server.stop(), 0);
    await closed;
    assert.ok(Date.now() - began < 5000, `${Date.now() - began} ms`);
    agent.destroy();
    server = await serve('--json');
    assert.equal(JSON.parse(server.said).url, origin());
  });
});

describe('serve with files that do not fit', () => {
  const openssl = (...args) => assert.equal(spawnSync('openssl', args).status, 0, args.join(' '));
  const self = (name, ...more) => openssl('req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes', '-keyout', at(`${name}.key`), '-out', at(`${name}.pem`), '-subj', '/CN=own', ...more);
  const refused = (first, second, words, exit = 1) => {
    const done = sowtide('serve', garden, '--port', '0', '--certificate', first, '--key', second);
    assert.equal(done.code, exit, done.err);
    assert.match(done.err, words);
    assert.equal(done.out, '');
  };

  it('says what is wrong, where, and what to do, and listens to nothing', () => {
    writeFileSync(at('text.pem'), 'only a text\n');
    refused(at('none.pem'), key, /none\.pem: --certificate: .*cannot be opened .*Check the name/);
    refused(certificate, at('none.pem'), /none\.pem: --key: /);
    refused(directory, key, /--certificate: /);
    refused(at('text.pem'), key, /text\.pem: --certificate: holds no certificate in PEM form\. Give a file/);
    refused(certificate, at('text.pem'), /text\.pem: --key: holds no private key in PEM form\. Give the key/);
    refused(key, certificate, /--certificate: holds no certificate/);
    refused(certificate, join(certificates, 'authority-key.pem'), /--key: the key belongs to another certificate\. Give the two/);
    refused(authority, join(certificates, 'authority-key.pem'), /--certificate: the certificate is not one of a server\. Give the server's own/);
    self('nameless');
    refused(at('nameless.pem'), at('nameless.key'), /names no host \(subjectAltName\)\. Make a new one/);
    openssl('pkcs8', '-topk8', '-in', key, '-passout', 'pass:secret', '-out', at('locked.key'));
    refused(certificate, at('locked.key'), /locked\.key: --key: the key is protected by a password\. Give one without/);
  });

  it('refuses a certificate that has run out', () => {
    openssl('req', '-new', '-key', key, '-subj', '/CN=old', '-out', at('old.csr'));
    writeFileSync(at('old.ext'), 'subjectAltName=IP:127.0.0.1\n');
    openssl('x509', '-req', '-in', at('old.csr'), '-key', key, '-days', '-1', '-extfile', at('old.ext'), '-out', at('old.pem'));
    refused(at('old.pem'), key, /old\.pem: --certificate: the certificate ran out on \d{4}-\d{2}-\d{2}\. Make a new one with `sowtide certificate/);
  });

  it('takes none of the pair alone', () => {
    for (const [option, file] of [['--certificate', certificate], ['--key', key]]) {
      const done = sowtide('serve', garden, '--port', '0', option, file);
      assert.equal(done.code, 2);
      assert.match(done.err, /--certificate requires --key|--key requires --certificate/);
    }
  });

  it('serves with a certificate of another maker, under its names', async () => {
    self('own', '-addext', 'subjectAltName=DNS:garden.example,IP:127.0.0.1');
    copyFileSync(at('own.key'), at('own-copy.key'));
    chmodSync(at('own-copy.key'), 0o600);
    const child = spawn(program, ['serve', garden, '--port', '0', '--json', '--certificate', at('own.pem'), '--key', at('own-copy.key')], { stdio: ['ignore', 'pipe', 'inherit'] });
    const line = await new Promise((resolve) => child.stdout.once('data', resolve));
    const { port } = new URL(JSON.parse(line).url);
    const status = (Host) => new Promise((resolve, reject) => request({ host: '127.0.0.1', port, path: '/api/garden', agent: false, servername: '', ca: readFileSync(at('own.pem')), headers: { Host } }, (answer) => { answer.resume(); resolve(answer.statusCode); }).on('error', reject).end());
    assert.equal(await status(`garden.example:${port}`), 200);
    assert.equal(await status(`other.example:${port}`), 421);
    child.kill('SIGINT');
  });
});
