// The store: putting in, eating, throwing away and taking back; and why a number is what it is.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { describe, it } from 'node:test';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { isReal, logEvents, openPage, serverAndBrowser, waitingAre } from './support.mjs';

const running = serverAndBrowser();

const storeNow = async () => (await fetch(`${running.server.url}/api/store`)).json();

async function openStore() {
  const opened = await openPage(running.browser, running.server.url, {
    viewport: { width: 360, height: 740 },
    hasTouch: true,
  });
  await opened.page.goto(`${running.server.url}/#/store`);
  await opened.page.getByRole('heading', { name: 'Put into store' }).waitFor();
  return opened;
}

/** A lot to work with; the stand-in has some of its own. */
async function ensureLot() {
  if (!isReal()) return (await storeNow()).lots[1];
  const { stands, today } = await (await fetch(`${running.server.url}/api/outlook`)).json();
  const stand = stands.find((each) => each.state !== 'planned');
  const id = `e2e-lot-${Math.random().toString(36).slice(2)}`;
  await logEvents(running.server.url, [
    { id, date: today, kind: 'stored', stand: stand.id, grams: 900, text: 'fridge' },
  ]);
  return (await storeNow()).lots.find((each) => each.id === id);
}

describe('store', () => {
  it('answers in the form of its schema, the first to spoil first', async () => {
    await ensureLot();
    const schema = JSON.parse(
      readFileSync(new URL('../../docs/api/store.schema.json', import.meta.url), 'utf8'),
    );
    const store = await storeNow();
    const validate = new Ajv2020().compile(schema);
    assert.ok(validate(store), JSON.stringify(validate.errors));
    assert.ok(store.lots.length > 0);
    const days = store.lots.map((lot) => lot.eat_by);
    assert.deepEqual(days, [...days].sort());
  });

  it('takes off what was eaten, and puts it back by a correction', async () => {
    const lot = await ensureLot();
    const { page, faults, context } = await openStore();
    await page.reload();
    await page.waitForSelector('main ol > li');
    const index = (await storeNow()).lots.findIndex((each) => each.id === lot.id);
    await page.locator('main ol > li').nth(index).getByRole('button', { name: 'Eaten' }).click();
    await waitingAre(page, 0);
    const less = (await storeNow()).lots.find((each) => each.id === lot.id);
    assert.ok(less.grams < lot.grams, `${less.grams} of ${lot.grams}`);
    await page.getByRole('button', { name: 'Undo' }).click();
    await waitingAre(page, 0);
    assert.equal((await storeNow()).lots.find((each) => each.id === lot.id).grams, lot.grams);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('puts a lot into store from a stand', async (test) => {
    const { page, context } = await openStore();
    if ((await page.locator('select').count()) === 0) {
      await context.close();
      return test.skip('nothing is up in this garden');
    }
    const events = async () => (await (await fetch(`${running.server.url}/api/events`)).json()).length;
    const before = await events();
    const shown = await page.locator('main ol > li').count();
    const amount = page.getByRole('group', { name: 'Put into store' }).getByRole('textbox');
    await amount.fill('90 kg');
    await amount.press('Enter');
    await page.getByText('By the log ').waitFor();
    await amount.fill('300 g');
    await page.getByRole('button', { name: 'Log: stored' }).click();
    await waitingAre(page, 0);
    assert.equal(await events(), before + 1);
    const logged = await (await fetch(`${running.server.url}/api/events`)).json();
    assert.equal(logged.findLast((event) => event.kind === 'stored').grams, 300);
    // What is put in lies there without the page being opened anew.
    if (isReal()) await page.locator('main ol > li').nth(shown).waitFor();
    await context.close();
  });

  it('opens why a lot keeps so long with one tap: inputs, working, source and uncertainty', async () => {
    await ensureLot();
    const { page, faults, context } = await openStore();
    await page.reload();
    await page.locator('main ol > li .why').first().click();
    const sheet = page.getByRole('dialog');
    await sheet.waitFor();
    for (const heading of ['From', 'How', 'How sure', 'Source'])
      await sheet.getByRole('heading', { name: heading, exact: true }).waitFor();
    if (isReal()) {
      await sheet.getByText(/keeps .* days/).waitFor();
      assert.ok((await sheet.locator('ul').nth(1).locator('li').count()) > 0, 'no source');
    }
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' }).catch(() => undefined);
    assert.equal(await page.locator('dialog[open]').count(), 0);
    assert.deepEqual(
      faults.filter((each) => isReal() || !/404/.test(each)),
      [],
    );
    await context.close();
  });

  it('reads no file for a browser', async (test) => {
    if (!isReal()) return test.skip('the stand-in works out nothing');
    const answer = await fetch(
      `${running.server.url}/api/figure/emergence?crop=beet&temp_c=20&weather=/etc/passwd`,
    );
    assert.equal(answer.status, 400);
    const good = await fetch(`${running.server.url}/api/figure/emergence?crop=beet&temp_c=20`);
    assert.equal(good.status, 200);
    assert.equal((await fetch(`${running.server.url}/api/figure/no-such`)).status, 404);
  });
});
