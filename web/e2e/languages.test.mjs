// The page in German and in US units: what the server refuses, and how to handle what is picked.

import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { isReal, logEvents, openPage, serverAndBrowser } from './support.mjs';

const kWhyHeadings = ['Woraus', 'Wie', 'Wie sicher', 'Quelle'];
const kPotatoes = {
  id: 'lot-potato',
  crop: 'potato',
  crop_name: 'Potato',
  place: 'best',
  grams: 3000,
  age_days: 0,
  good_share: 1,
  life_days: { kitchen: 20, fridge: 10, best: 150 },
  handling: 'Cure two weeks in the dark at 13 to 16 °C, keep dark, cool and airy.',
};

const running = serverAndBrowser();

async function openGerman(kept = {}) {
  const opened = await openPage(running.browser, running.server.url, {
    viewport: { width: 360, height: 740 },
  });
  await opened.page.addInitScript(
    (values) => {
      for (const [key, value] of Object.entries(values)) localStorage.setItem(key, JSON.stringify(value));
    },
    { 'sowtide.preferences': { language: 'de', units: 'us' }, ...kept },
  );
  return opened;
}

/** Problems as the program answers what a page may send: of the log, of moves, of setting up, of a plan, of pairing. */
async function refusals(url) {
  const json = async (path) => (await fetch(`${url}${path}`)).json();
  const { today, stands } = await json('/api/outlook');
  const { beds, trays, wants } = await json('/api/setup');
  const ask = async (method, path, body) => {
    const headers = { 'Content-Type': 'application/json' };
    const answer = await fetch(`${url}${path}`, { method, headers, body: body && JSON.stringify(body) });
    assert.ok(!answer.ok, `${method} ${path} ${JSON.stringify(body)} was taken`);
    return (await answer.json()).error;
  };
  const planned = stands.find((each) => each.state === 'planned');
  const carrots = stands.find((each) => each.crop === 'carrot');
  const sown = stands.find((each) => each.state !== 'planned' && each.method === 'direct-sow');
  await logEvents(url, [{ id: 'de-lot', date: today, kind: 'stored', stand: sown.id, grams: 100 }]);
  const event = (more) =>
    ask('POST', '/api/events', [{ id: 'de-2', date: today, kind: 'counted', stand: sown.id, ...more }]);
  const move = (id, body) => ask('PUT', `/api/stands/${id}`, body);
  const own = (more) =>
    ask('POST', '/api/stands', { crop: 'carrot', bed: beds[0].id, clumps: 9, day: today, ...more });
  const past = (more) =>
    part('past', [{ bed: beds[0].id, from_m: 0, to_m: 1, family: 'Apiaceae', year: 2025, ...more }]);
  const part = (name, body) => ask('PUT', `/api/setup/${name}`, body);
  const bed = (more) => part('beds', [{ ...beds[0], ...more }, ...beds.slice(1)]);
  return [
    await event({ count: 1e6 }),
    await event({}),
    await event({ count: 1.5 }),
    await event({ count: -1 }),
    await event({ count: 3, date: '2001-01-01' }),
    await event({ count: 3, date: '2190-01-01' }),
    await event({ kind: 'set-out' }),
    await event({ kind: 'measured', grams: 900_000 }),
    await event({ kind: 'stored', grams: 5, text: 'fridge', target: 'de-lot' }),
    await event({ kind: 'eaten', stand: '', target: 'no-lot', grams: 5 }),
    await event({ kind: 'eaten', stand: '', target: 'de-lot', grams: 5000 }),
    await event({ kind: 'eaten', stand: '', target: 'de-lot', grams: 5, date: '2026-01-01' }),
    await event({ kind: 'corrected', stand: '', target: 'no-entry' }),
    await event({ id: 'de-lot', count: 1 }),
    await move('no-such', { from_m: 0 }),
    await move(sown.id, { from_m: 0 }),
    await move(planned.id, { from_m: 500 }),
    await move(planned.id, { bed: 'no-bed' }),
    await move(planned.id, { sow: '2001-01-01' }),
    await event({ kind: 'set-out', text: 'bought', stand: carrots.id }),
    await own({ bought: true }),
    await own({ crop: 'tomato' }),
    await own({ clumps: 0 }),
    await own({ clumps: 900, crop: 'kale' }),
    await own({ clumps: 100, spacing_mm: 150 }),
    await own({ bed: 'no-bed' }),
    await own({ tray: 'no-tray', crop: 'leek' }),
    await own({ from_m: -1 }),
    await own({ spacing_mm: 0.1 }),
    await past({ to_m: 500 }),
    await past({ from_m: 2 }),
    await past({ year: 1500 }),
    await bed({ length_m: 0 }),
    await bed({ length_m: 1e6 }),
    await bed({ name: '' }),
    await bed({ name: 'x'.repeat(300) }),
    await bed({ length_m: 'long' }),
    await bed({ length_m: 0.1 }),
    await part('beds', beds.slice(1)),
    await part('trays', [{ ...trays[0], cells: 0 }]),
    await part('wants', [{ ...wants[0], crop: 'no-such' }]),
    await part('wants', [{ ...wants[0], amount_per_week: -1 }]),
    await part('place', { place: 'no such place' }),
    await part('place', { name: 'x', latitude_deg: 95, longitude_deg: 0 }),
    await ask('POST', '/api/pair', { code: '000000', name: 'x' }),
    await ask('POST', '/api/devices/code'),
    await ask('GET', '/api/household?people=-1'),
    await ask('GET', '/api/judge/no-such'),
  ];
}

describe('in German', () => {
  it('a refused entry is told in German', async (t) => {
    if (!isReal()) return t.skip('the stand-in refuses nothing');
    const { today } = await (await fetch(`${running.server.url}/api/today`)).json();
    const event = { id: 'de-1', date: today, kind: 'noted', stand: 'no-such', text: 'x' };
    const { page, context } = await openGerman({
      'sowtide.outbox': { waiting: [event], refused: [] },
    });
    await page.goto(`${running.server.url}/#/today`);
    const notice = page.getByText('Ein Eintrag wurde nicht angenommen:');
    await notice.waitFor();
    assert.match(await notice.textContent(), /In diesem Garten gibt es keinen Satz no-such\. Nenne einen/);
    assert.equal(await notice.locator('[lang=en]').count(), 0);
    await context.close();
  });

  it('a server that fails is told in German', async () => {
    const { page, context } = await openGerman();
    await page.route('**/api/store', (route) =>
      route.fulfill({
        status: 500,
        json: { error: { code: 'storage', what: 'disk full', where: {}, remedy: 'Make room' } },
      }),
    );
    await page.goto(`${running.server.url}/#/store`);
    const told = page.locator('p', { hasText: 'Die Gartendatei ließ sich nicht lesen oder schreiben.' });
    await told.waitFor();
    assert.equal(await told.locator('[lang=en]').textContent(), '(Disk full. Make room.)');
    await context.close();
  });

  it('tells whatever the page can be refused in German alone', async (t) => {
    if (!isReal()) return t.skip('the stand-in refuses nothing');
    const errors = await refusals(running.server.url);
    const refused = errors.map(({ code, what, remedy, where }, i) => ({
      event: { id: `de-${i}`, date: '2027-04-20', kind: 'noted', text: 'x' },
      problem: { code, what, remedy, field: where.field },
    }));
    const { page, context } = await openGerman({ 'sowtide.outbox': { waiting: [], refused } });
    await page.goto(`${running.server.url}/#/today`);
    const notices = page.getByText('Ein Eintrag wurde nicht angenommen:');
    await notices.first().waitFor();
    assert.equal(await notices.count(), errors.length);
    const inEnglish = await notices.evaluateAll((all) =>
      all.filter((each) => each.querySelector('[lang=en]')).map((each) => each.textContent),
    );
    assert.deepEqual(inEnglish, []);
    await context.close();
  });

  it('says how to handle what is picked, and the working of a figure', async () => {
    const { page, context } = await openGerman();
    const store = await (await fetch(`${running.server.url}/api/store`)).json();
    await page.route('**/api/store', (route) =>
      route.fulfill({
        json: { ...store, lots: [{ ...kPotatoes, stored: store.today, eat_by: store.today }] },
      }),
    );
    await page.goto(`${running.server.url}/#/store`);
    await page.getByText('Zwei Wochen dunkel bei 55 bis 61 °F ruhen lassen').waitFor();
    if (isReal()) {
      await page.locator('main button.why:visible').first().click();
      const sheet = page.locator('dialog[open]');
      await sheet.getByText(/^Dort hält es sich \d+ Tage/).waitFor();
      assert.deepEqual(await sheet.locator('h3').allTextContents(), kWhyHeadings);
      // The titles of sources stay as they were published.
      assert.equal(
        await sheet.locator('[lang=en]').count(),
        await sheet.locator('ul:last-of-type [lang=en]').count(),
      );
    }
    await context.close();
  });
});
