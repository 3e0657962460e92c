// The page in German and in US units: what the server refuses, and how to handle what is picked.

import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { isReal, openPage, serverAndBrowser } from './support.mjs';

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

describe('in German', () => {
  it('a refused entry is told in German, with the words of the program marked as English', async (t) => {
    if (!isReal()) return t.skip('the stand-in refuses nothing');
    const { today } = await (await fetch(`${running.server.url}/api/today`)).json();
    const event = { id: 'de-1', date: today, kind: 'noted', stand: 'no-such', text: 'x' };
    const { page, context } = await openGerman({
      'sowtide.outbox': { waiting: [event], refused: [] },
    });
    await page.goto(`${running.server.url}/#/today`);
    const notice = page.getByText('Ein Eintrag wurde nicht angenommen:');
    await notice.waitFor();
    assert.match(await notice.textContent(), /Satz: Das gibt es hier nicht\./);
    const own = await notice.locator('[lang=en]').textContent();
    assert.match(own, /no-such/);
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
    assert.equal(await told.locator('[lang=en]').textContent(), '(disk full. Make room.)');
    await context.close();
  });

  it('says how to handle what is picked, and marks the working of a figure as English', async () => {
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
      await sheet.locator('li[lang=en]').first().waitFor();
      assert.deepEqual(await sheet.locator('h3').allTextContents(), kWhyHeadings);
      assert.match(await sheet.textContent(), /sind auf Englisch/);
    }
    await context.close();
  });
});
