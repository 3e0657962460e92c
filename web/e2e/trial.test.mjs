// A plan that is only tried, with the real program: what it would change, and that nothing is written until it is kept.

import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { isReal, kWidths, openPage, serverAndBrowser } from './support.mjs';

describe('a plan that is only tried', { skip: isReal() ? false : 'needs the real program' }, () => {
  const running = serverAndBrowser();
  const read = async (path) => (await fetch(`${running.server.url}${path}`)).json();
  /** Waits for what comes of "Only try"; the first plan of a garden takes a while. */
  async function tryPlan(page, choose) {
    await page.goto(`${running.server.url}/#/plan`);
    if (choose) await page.getByLabel('What if there were').selectOption(choose);
    await page.getByRole('button', { name: 'Only try' }).click();
    const stop = page.getByRole('button', { name: 'Stop and show the best so far' });
    await stop.waitFor();
    // Once there is a plan, the best so far will do.
    await page.getByText('a better one could save').waitFor();
    await stop.click({ timeout: 5000 }).catch(() => undefined);
    await page.getByRole('heading', { name: 'Only tried' }).waitFor();
  }

  it('shows what it would change and leaves the garden as it is', async () => {
    const { page, faults, context } = await openPage(running.browser, running.server.url);
    const before = await read('/api/outlook');
    await tryPlan(page);
    const trial = page.getByRole('region', { name: 'Only tried' });
    assert.ok((await trial.locator('tbody tr').count()) > 0);
    await trial.getByText('changes', { exact: false }).first().waitFor();
    await page.getByRole('button', { name: 'Leave it as it is' }).click();
    await page.getByRole('heading', { name: 'Only tried' }).waitFor({ state: 'detached' });
    assert.deepEqual(await read('/api/outlook'), before);
    assert.deepEqual(faults, []);
    await context.close();
  });

  for (const width of kWidths) {
    it(`is wanted for another garden, and cannot be kept then; ${width} px`, async () => {
      const { page, context } = await openPage(running.browser, running.server.url, {
        viewport: { width, height: 900 },
      });
      const setup = await read('/api/setup');
      await tryPlan(page, { label: `${setup.beds[0].name}, 1 m longer` });
      assert.equal(await page.getByRole('button', { name: 'Keep it' }).count(), 0);
      assert.equal(
        await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth),
        true,
        'no wider than the screen',
      );
      assert.deepEqual(await read('/api/setup'), setup);
      await page.getByRole('button', { name: 'Leave it as it is' }).click();
      await context.close();
    });
  }

  it('is kept as it was shown', async () => {
    const { page, context } = await openPage(running.browser, running.server.url);
    await tryPlan(page);
    const shown = (await read('/api/plan/trial')).outlook.stands;
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('heading', { name: 'Before and after' }).waitFor();
    await page.getByText('The new plan is in the garden.').waitFor();
    assert.deepEqual((await read('/api/outlook')).stands, shown);
    await context.close();
  });
});
