// Pictures of every page at both widths, light and dark: for looking at.
//   node tools/shots.mjs DIR [season|big]

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { openPage, startBrowser, startServer } from '../e2e/support.mjs';

const directory = process.argv[2] ?? '/tmp/shots';
const name = process.argv[3] ?? 'season';
mkdirSync(directory, { recursive: true });
const server = await startServer(name);
const browser = await startBrowser();
for (const width of [1280, 360]) {
  for (const colorScheme of ['light', 'dark']) {
    const { page, faults } = await openPage(browser, server.url, {
      viewport: { width, height: width > 600 ? 900 : 740 },
      colorScheme,
    });
    await page.goto(server.url);
    await page.waitForSelector('[data-key]');
    const stands = (await (await page.request.get(`${server.url}/api/outlook`)).json()).stands;
    const second = stands[Math.min(1, stands.length - 1)].id;
    for (const [label, hash] of [
      ['season', '#/season'],
      ['today', '#/today'],
      ['table', '#/table'],
      ['store', '#/store'],
      ['packets', '#/packets'],
      ['plan', '#/plan'],
      ['setup', '#/setup'],
      ['stand', `#/stand/${second}`],
    ]) {
      await page.goto(`${server.url}/${hash}`);
      await page.waitForTimeout(500);
      await page.screenshot({
        path: join(directory, `${name}-${label}-${width}-${colorScheme}.png`),
        fullPage: label !== 'season',
      });
      if (label === 'season' && colorScheme === 'light') {
        for (const zoom of ['Month', 'Week']) {
          await page.getByRole('button', { name: zoom, exact: true }).click();
          await page.locator('[data-key]').nth(4).focus();
          await page.waitForTimeout(200);
          await page.screenshot({ path: join(directory, `${name}-${zoom}-${width}.png`) });
        }
      }
    }
    if (faults.length) console.log(width, colorScheme, faults);
  }
}
await browser.close();
await server.stop();
