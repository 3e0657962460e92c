// `sowtide certificate`, read by others: OpenSSL's tool and Node.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { copyFileSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, it } from 'node:test';
import { must, mustJson, scratch, sowtide } from './support.mjs';

const directory = join(scratch(), 'home');
const file = (name) => join(directory, name);
const read = (name) => new X509Certificate(readFileSync(file(name)));
const kDay = 86_400_000;
const days = (certificate) => (Date.parse(certificate.validTo) - Date.parse(certificate.validFrom) + 1000) / kDay;
const openssl = (...args) => spawnSync('openssl', args, { encoding: 'utf8' });
const verify = (certificate) => openssl('verify', '-x509_strict', '-purpose', 'sslserver', '-CAfile', file('authority.pem'), certificate);

/** What whoever stole the authority's key could sign with another tool. */
function signed(names) {
  const [key, asked, more, certificate] = ['thief.key', 'thief.csr', 'thief.ext', 'thief.pem'].map(file);
  openssl('req', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes', '-keyout', key, '-out', asked, '-subj', '/CN=thief');
  writeFileSync(more, `basicConstraints=critical,CA:FALSE\nextendedKeyUsage=serverAuth\nsubjectAltName=${names}\nauthorityKeyIdentifier=keyid\nsubjectKeyIdentifier=hash\n`);
  const done = openssl('x509', '-req', '-in', asked, '-CA', file('authority.pem'), '-CAkey', file('authority-key.pem'), '-days', '30', '-extfile', more, '-out', certificate);
  assert.equal(done.status, 0, done.stderr);
  return verify(certificate);
}

describe('sowtide certificate', () => {
  const made = mustJson('certificate', 'certificate', directory, '--host', 'Kitchen.local', '--host', '192.168.77.8', '--host', 'localhost');
  const authority = read('authority.pem');
  const server = read('server.pem');

  it('makes an authority and a certificate of it that OpenSSL takes for a server', () => {
    assert.equal(made.authority.made, true);
    const done = verify(file('server.pem'));
    assert.equal(done.status, 0, done.stderr);
    assert.ok(server.verify(authority.publicKey));
    assert.ok(server.checkIssued(authority));
    assert.equal(authority.ca, true);
    assert.equal(server.ca, false);
    assert.equal(authority.fingerprint256, made.authority.sha256);
    for (const certificate of [authority, server]) assert.equal(certificate.publicKey.asymmetricKeyDetails.namedCurve, 'prime256v1');
  });

  it('names this machine and every host asked for, each once', () => {
    const names = server.subjectAltName.split(', ').map((each) => each.replace(/^(DNS|IP Address):/, ''));
    assert.deepEqual(names, made.server.hosts);
    for (const name of ['localhost', '127.0.0.1', 'kitchen.local', '192.168.77.8']) assert.equal(names.filter((each) => each === name).length, 1, name);
    assert.equal(server.checkIP('192.168.77.8'), '192.168.77.8');
    assert.equal(server.checkHost('kitchen.local'), 'kitchen.local');
    assert.equal(server.checkHost('other.local'), undefined);
  });

  it('keeps to the times and uses that others ask of it', () => {
    assert.equal(days(server), 397);
    assert.equal(days(authority), 3650);
    assert.ok(Date.parse(server.validFrom) < Date.now() && Date.parse(server.validFrom) > Date.now() - 2 * kDay);
    const texts = { authority: openssl('x509', '-in', file('authority.pem'), '-noout', '-text').stdout, server: openssl('x509', '-in', file('server.pem'), '-noout', '-text').stdout };
    assert.match(texts.authority, /Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    assert.match(texts.authority, /Key Usage: critical\s+Certificate Sign\s/);
    assert.match(texts.authority, /Name Constraints: critical/);
    assert.match(texts.server, /Extended Key Usage: ?\s+TLS Web Server Authentication\s/);
    for (const certificate of [authority, server]) assert.ok(certificate.serialNumber.length > 20 && certificate.serialNumber.length <= 32, certificate.serialNumber);
  });

  it('binds the authority to the home: what its key signs for elsewhere is refused', () => {
    for (const names of ['DNS:garden.local', 'IP:10.1.2.3', 'IP:172.31.255.1', 'IP:169.254.1.1', 'DNS:localhost']) {
      const done = signed(names);
      assert.equal(done.status, 0, `${names}: ${done.stderr}`);
    }
    for (const names of ['DNS:bank.example', 'DNS:local.bank.example', 'DNS:garden.local,DNS:bank.example', 'IP:192.0.2.1', 'IP:172.32.0.1', 'IP:8.8.8.8', 'IP:fd00::1', 'DNS:notlocal']) {
      const done = signed(names);
      assert.notEqual(done.status, 0, names);
      assert.match(done.stderr, /permitted subtree violation/, names);
    }
  });

  it('keeps the keys to their owner', () => {
    for (const name of ['authority-key.pem', 'server-key.pem']) assert.equal(statSync(file(name)).mode & 0o777, 0o600, name);
  });

  it('signs again with the authority that is there', () => {
    const before = ['authority.pem', 'authority-key.pem'].map((name) => readFileSync(file(name), 'utf8'));
    const again = mustJson('certificate', 'certificate', directory);
    assert.equal(again.authority.made, false);
    assert.equal(again.authority.sha256, made.authority.sha256);
    assert.deepEqual(['authority.pem', 'authority-key.pem'].map((name) => readFileSync(file(name), 'utf8')), before);
    assert.notEqual(read('server.pem').serialNumber, server.serialNumber);
    assert.equal(verify(file('server.pem')).status, 0);
  });

  it('says in words what to do, and what to keep', () => {
    const fresh = join(scratch(), 'fresh');
    const said = must('certificate', fresh);
    for (const part of [`Put ${fresh}/authority.pem on it`, 'Android:', 'iPhone:', `--certificate ${fresh}/server.pem --key ${fresh}/server-key.pem`, `Whoever has ${fresh}/authority-key.pem`, 'remove it from the phones']) assert.ok(said.includes(part), part);
    assert.doesNotMatch(must('certificate', fresh), /Put .* on it/);
  });

  it('refuses hosts that are not of a home network, and makes nothing then', () => {
    const nothing = join(scratch(), 'nothing');
    for (const host of ['bank.example', '8.8.8.8', '172.32.0.1', '192.0.2.1', 'fd00::1', '*.local', 'local', 'a..local', '-a.local', 'a b.local', 'x.local,DNS:bank.example', '10.0.0.256', '']) {
      const done = sowtide('certificate', nothing, '--host', host);
      assert.equal(done.code, 1, host);
      assert.match(done.err, /--host: ".*" is not of a home network/, host);
      assert.equal(statSync(nothing, { throwIfNoEntry: false }), undefined);
    }
  });

  it('touches no authority that it cannot use', () => {
    const cases = {
      'without its key': [(at) => rmSync(join(at, 'authority-key.pem')), /is there without authority-key\.pem/],
      'without its certificate': [(at) => rmSync(join(at, 'authority.pem')), /is there without authority\.pem/],
      'with the key of another': [(at) => copyFileSync(file('server-key.pem'), join(at, 'authority-key.pem')), /is not the key of authority\.pem/],
      'with a text as key': [(at) => writeFileSync(join(at, 'authority-key.pem'), 'no key\n'), /holds no private key/],
      'with a text as certificate': [(at) => writeFileSync(join(at, 'authority.pem'), 'no certificate\n'), /holds no certificate/],
      'that is none': [(at) => { copyFileSync(file('server.pem'), join(at, 'authority.pem')); copyFileSync(file('server-key.pem'), join(at, 'authority-key.pem')); }, /is not an authority/],
    };
    for (const [name, [spoil, words]] of Object.entries(cases)) {
      const at = join(scratch(), 'spoilt');
      mkdirSync(at);
      for (const each of ['authority.pem', 'authority-key.pem']) copyFileSync(file(each), join(at, each));
      spoil(at);
      const done = sowtide('certificate', at);
      assert.equal(done.code, 1, name);
      assert.match(done.err, words, name);
      assert.equal(statSync(join(at, 'server.pem'), { throwIfNoEntry: false }), undefined, name);
    }
    writeFileSync(file('plain'), '');
    assert.match(sowtide('certificate', file('plain')).err, /cannot be made/);
  });
});
