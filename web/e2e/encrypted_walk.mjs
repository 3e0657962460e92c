// Run by encrypted.test.mjs inside a network whose only addresses are 127.0.0.1 and 10.9.8.7, with a HOME of its own: the
// authority is put among those that this home's browser trusts, as a phone's owner does.

import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { kToday, makeGarden } from './garden.mjs';
import { openPage, startBrowser, webOf } from './support.mjs';

const binary = process.env.SOWTIDE_BIN;
const home = process.env.HOME;
const kHome = '10.9.8.7';
const certificates = join(home, 'certificates');
const garden = makeGarden(binary);

function trustAuthority() {
  const store = join(home, '.pki', 'nssdb');
  mkdirSync(store, { recursive: true });
  execFileSync('certutil', ['-d', `sql:${store}`, '-N', '--empty-password']);
  execFileSync('certutil', [
    ...['-d', `sql:${store}`, '-A', '-n', 'home', '-t', 'C,,'],
    ...['-i', join(certificates, 'authority.pem')],
  ]);
}

/** Serves to the home network; resolves once there is a code for pairing. */
function serve() {
  const pair = [
    '--certificate',
    join(certificates, 'server.pem'),
    '--key',
    join(certificates, 'server-key.pem'),
  ];
  const args = ['serve', garden, '--port', '0', '--lan', '--date', kToday, '--json', ...pair, ...webOf()];
  const child = spawn(binary, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  process.on('exit', () => child.kill());
  return new Promise((resolve) => {
    let said = '';
    child.stdout.on('data', (piece) => {
      said += piece;
      const lines = said.split('\n');
      if (lines.length < 3) return;
      const stop = () =>
        new Promise((done) => {
          child.once('exit', done);
          child.kill('SIGTERM');
        });
      resolve({ pairingUrl: JSON.parse(lines[1]).pairing.url, stop });
    });
  });
}

/** Opens an address that the browser must not open. */
async function refusal(browser, url) {
  const context = await browser.newContext();
  const page = await context.newPage();
  const failed = await page.goto(url).then(
    () => undefined,
    (error) => error.message,
  );
  await context.close();
  return failed;
}

execFileSync(binary, ['certificate', certificates]);
const server = await serve();
const url = new URL(server.pairingUrl).origin;
assert.match(url, new RegExp(`^https://${kHome}:\\d+$`));

// Who does not trust the authority is warned off.
const stranger = await startBrowser();
assert.match(await refusal(stranger, url), /ERR_CERT_AUTHORITY_INVALID/);
await stranger.close();

trustAuthority();
const browser = await startBrowser();
const { page, context, faults } = await openPage(browser, url, { viewport: { width: 360, height: 740 } });
await page.goto(server.pairingUrl);
await page.getByText('Once paired, install the page').waitFor();
await page.locator('button').first().click();
await page.waitForURL((at) => at.pathname === '/');
const [cookie] = await context.cookies();
assert.deepEqual([cookie.secure, cookie.httpOnly, cookie.sameSite], [true, true, 'Strict']);

// The browser keeps the page, which it does for trusted addresses only, and offers to install it.
await page.goto(`${url}/#/today`);
await page.waitForSelector('main ol > li');
assert.equal(await page.evaluate(() => isSecureContext), true);
await page.evaluate(() => navigator.serviceWorker.ready);
const isKept = () =>
  page.evaluate(async () => {
    const kept = (await (await caches.open('sowtide-answers-1')).keys()).map(
      (each) => new URL(each.url).pathname,
    );
    return ['/api/garden', '/api/outlook', '/api/today'].every((each) => kept.includes(each));
  });
while (!(await isKept())) await page.waitForTimeout(200);
const devtools = await context.newCDPSession(page);
const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
// A context of its own counts as a private window, which installs nothing; all else must be in order.
assert.deepEqual(
  installabilityErrors.map((each) => each.errorId).filter((each) => each !== 'in-incognito'),
  [],
);
const first = await page.locator('main ol > li h2').first().innerText();
assert.deepEqual(faults, []);

// With the server gone it opens anew, in a new tab too.
assert.equal(await server.stop(), 0);
await page.reload();
await page.waitForSelector('main ol > li');
await page.close();
const anew = await context.newPage();
await anew.goto(`${url}/#/today`);
await anew.waitForSelector('main ol > li');
assert.equal(await anew.locator('main ol > li h2').first().innerText(), first);
await anew.getByText('The garden server is not in reach').waitFor();
await browser.close();
console.log('walked to the end');
