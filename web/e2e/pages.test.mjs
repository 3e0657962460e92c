// Every page at both widths, light and dark: no accessibility violations, no errors, nothing asked of other hosts,
// nothing wider than the screen.

import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import AxeBuilder from '@axe-core/playwright';
import { kWidths, openPage, startBrowser, startServer } from './support.mjs';

const kTags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const kPages = ['season', 'today', 'table', 'store', 'packets', 'plan', 'stand'];
const kReadySelector = { season: '[data-key]', packets: '.chart li', stand: 'dl' };

let server, browser, standId;
before(async () => {
  server = await startServer();
  browser = await startBrowser();
  const answer = await fetch(`${server.url}/api/outlook`);
  const { stands } = await answer.json();
  standId = (stands.find((stand) => stand.state !== 'planned') ?? stands[0]).id;
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

async function visit(page, name) {
  await page.goto(`${server.url}/#/${name}${name === 'stand' ? `/${standId}` : ''}`);
  await page.waitForSelector(kReadySelector[name] ?? 'h1');
  await page.waitForFunction(
    () => !document.querySelector('main')?.textContent?.includes('Reading the garden'),
  );
}

const violationsOf = async (page) => {
  const { violations } = await new AxeBuilder({ page }).withTags(kTags).analyze();
  return violations.map(
    (each) =>
      `${each.id}: ${each.nodes
        .map((node) => node.html.slice(0, 160))
        .slice(0, 3)
        .join(' | ')}`,
  );
};

for (const width of kWidths) {
  for (const colorScheme of ['light', 'dark']) {
    describe(`at ${width} px, ${colorScheme}`, () => {
      for (const name of kPages) {
        it(`${name} page is accessible, quiet and no wider than the screen`, async () => {
          const { page, faults, context } = await openPage(browser, server.url, {
            viewport: { width, height: 800 },
            colorScheme,
            reducedMotion: 'reduce',
          });
          await visit(page, name);
          for (const details of await page.locator('main details').all())
            await details.evaluate((each) => {
              each.open = true;
            });
          assert.deepEqual(await violationsOf(page), []);
          assert.equal(
            await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth),
            true,
            'wider than the screen',
          );
          assert.deepEqual(faults, []);
          await context.close();
        });
      }
      it('the settings menu is accessible', async () => {
        const { page, context } = await openPage(browser, server.url, {
          viewport: { width, height: 800 },
          colorScheme,
        });
        await visit(page, 'today');
        await page.locator('header summary').click();
        assert.deepEqual(await violationsOf(page), []);
        assert.equal(
          await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth),
          true,
          'wider than the screen',
        );
        await context.close();
      });
    });
  }
}

describe('on a phone', () => {
  it('every button and link in the page is at least 24 px high and wide (WCAG 2.2, 2.5.8)', async () => {
    const { page, context } = await openPage(browser, server.url, {
      viewport: { width: 360, height: 740 },
      hasTouch: true,
    });
    for (const name of kPages) {
      await visit(page, name);
      const small = await page.evaluate(() =>
        [...document.querySelectorAll('button, summary, main a, nav a')]
          .filter((each) => {
            const box = each.getBoundingClientRect();
            return box.width > 0 && (box.width < 24 || box.height < 24);
          })
          .map((each) => each.outerHTML.slice(0, 120)),
      );
      assert.deepEqual(small, [], name);
    }
    await context.close();
  });
});
