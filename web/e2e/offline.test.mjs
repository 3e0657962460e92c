// Off the network in Chromium: the page opens from what the service worker kept, shows the last data and says so, and
// what is logged meanwhile arrives once, in order, when the server is back.

import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { openPage, serverAndBrowser, waitingAre } from './support.mjs';

const running = serverAndBrowser();

const eventsOf = async () => (await fetch(`${running.server.url}/api/events`)).json();
const kLog = /^Log: /;

const isKept = (page, paths) =>
  page.evaluate(async (wanted) => {
    const kept = (await (await caches.open('sowtide-answers-1')).keys()).map(
      (each) => new URL(each.url).pathname,
    );
    return wanted.every((each) => kept.includes(each));
  }, paths);

/** Opens Today and waits until the service worker has the page and the answers. */
async function openKept() {
  const opened = await openPage(running.browser, running.server.url, {
    viewport: { width: 360, height: 740 },
  });
  const { page } = opened;
  await page.goto(`${running.server.url}/#/today`);
  await page.waitForSelector('main ol > li');
  while (!(await isKept(page, ['/api/garden', '/api/outlook', '/api/today', '/api/store'])))
    await page.waitForTimeout(200);
  return opened;
}

const waitingCount = (page) =>
  page.evaluate(() => JSON.parse(localStorage.getItem('sowtide.outbox') ?? '{"waiting":[]}').waiting.length);

/**
 * Cuts the network by stopping the program. Chromium's own offline mode lets requests through that a service worker has
 * seen first; for the stand-in, which cannot be stopped, it is good enough.
 */
async function cut(context) {
  if (running.server.again) await running.server.stop();
  else await context.setOffline(true);
}

async function mend(context) {
  if (running.server.again) running.server = await running.server.again();
  else await context.setOffline(false);
}

describe('off the network', () => {
  it('opens again with the network cut and shows the last data, saying that it is old', async () => {
    const { page, context } = await openKept();
    const first = await page.locator('main ol > li h2').first().innerText();
    await cut(context);
    await page.reload();
    await page.waitForSelector('main ol > li');
    assert.equal(await page.locator('main ol > li h2').first().innerText(), first);
    await page.getByText('The garden server is not in reach').waitFor();
    await page.goto(`${running.server.url}/#/season`);
    await page.waitForSelector('[data-key]');
    await page.goto(`${running.server.url}/#/store`);
    await page.waitForSelector('h1');
    await mend(context);
    await context.close();
  });

  it('says off the network whether to pull or wait, of a stand that was never opened', async () => {
    const { page, context } = await openKept();
    const { stands } = await (await fetch(`${running.server.url}/api/outlook`)).json();
    const standing = stands.filter((each) => each.state !== 'planned' && each.state !== 'finished');
    const { id } = standing.at(-1);
    while (!(await isKept(page, [`/api/judge/${id}`, `/api/outlook/${id}`]))) await page.waitForTimeout(200);
    await cut(context);
    await page.goto(`${running.server.url}/#/stand/${id}`);
    await page.getByRole('heading', { name: 'Pull or wait' }).waitFor();
    await mend(context);
    await context.close();
  });

  it('keeps entries and an undo made off the network over a restart, then sends each once and in order', async () => {
    const before = await eventsOf();
    const { page, context } = await openKept();
    await cut(context);
    await page.reload();
    await page.waitForSelector('main ol > li');
    const buttons = page.locator('main ol > li').getByRole('button', { name: kLog });
    await buttons.first().click();
    await buttons.first().click();
    assert.equal(await waitingCount(page), 2);
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await waitingAre(page, 3);
    const sentLater = await page.evaluate(() =>
      JSON.parse(localStorage.getItem('sowtide.outbox')).waiting.map((each) => each.id),
    );
    await page.reload();
    await page.waitForSelector('main ol > li');
    assert.equal(await waitingCount(page), 3);
    if (!running.server.again) assert.equal((await eventsOf()).length, before.length);
    await mend(context);
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await waitingAre(page, 0);
    const arrived = (await eventsOf()).slice(before.length).map((each) => each.id);
    assert.deepEqual(arrived, sentLater);
    await page.getByText('The garden server is not in reach').waitFor({ state: 'detached' });
    await context.close();
  });

  it('loses nothing that two pages of a device wrote off the network, and shows each what waits', async () => {
    const before = await eventsOf();
    const { page, context } = await openKept();
    const other = await context.newPage();
    await other.goto(`${running.server.url}/#/today`);
    await other.waitForSelector('main ol > li');
    await cut(context);
    const log = (each, at) =>
      each.locator('main ol > li').getByRole('button', { name: kLog }).nth(at).click();
    await log(page, 0);
    await waitingAre(page, 1);
    await log(other, 1);
    await waitingAre(page, 2);
    await log(page, 1);
    await waitingAre(page, 3);
    for (const each of [page, other]) await each.getByText('3 entries wait to be sent.').waitFor();
    const written = await page.evaluate(() =>
      JSON.parse(localStorage.getItem('sowtide.outbox')).waiting.map((each) => each.id),
    );
    await mend(context);
    // Both at once, as when the network comes back.
    await Promise.all([page, other].map((each) => each.evaluate(() => dispatchEvent(new Event('online')))));
    await waitingAre(page, 0);
    for (const each of [page, other]) await each.getByText('to be sent').waitFor({ state: 'detached' });
    const arrived = (await eventsOf()).slice(before.length).map((each) => each.id);
    assert.deepEqual(arrived, written);
    await context.close();
  });

  it('shows the page and sends what is logged where the browser lets it keep nothing', async () => {
    const before = await eventsOf();
    const { page, context, faults } = await openPage(running.browser, running.server.url);
    await page.addInitScript(() =>
      Object.defineProperty(window, 'localStorage', {
        get() {
          throw new DOMException('blocked', 'SecurityError');
        },
      }),
    );
    await page.goto(`${running.server.url}/#/today`);
    await page.locator('main ol > li').getByRole('button', { name: kLog }).first().click();
    await page.getByText('Logged:').first().waitFor();
    while ((await eventsOf()).length === before.length) await page.waitForTimeout(200);
    await page.getByText('to be sent').waitFor({ state: 'detached' });
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('can be installed: a manifest with icons of the sizes that phones ask for, all there', async () => {
    const manifest = await (await fetch(`${running.server.url}/manifest.webmanifest`)).json();
    assert.equal(manifest.display, 'standalone');
    for (const icon of manifest.icons) {
      const answer = await fetch(running.server.url + icon.src);
      assert.equal(answer.status, 200, icon.src);
      assert.equal(answer.headers.get('content-type'), icon.type);
    }
    const sizes = manifest.icons.map((icon) => icon.sizes);
    assert.ok(sizes.includes('192x192') && sizes.includes('512x512'));
    assert.ok(manifest.icons.some((icon) => icon.purpose === 'maskable'));
  });
});
