// One entry → outlook, worklist and page, with 40 beds and 200 stands, by the real program; and how soon the page comes.
//   npm run latency [-- ENTRIES [PROGRAM]]     fails over the limits; figures of a busy machine are upper bounds
// The time of an entry runs from sending it, inside the page, to the frame in which its stand is drawn as sown: by then the
// server has kept it and told the page, and the page has read outlook and worklist again.

import { entryOf, kProgram, serveLargeGarden, within } from '../../bench/large_garden.mjs';
import { openPage, startBrowser } from '../e2e/support.mjs';

const kEntryMs = 300;
const kFirstContentMs = 1000;
const kVisits = 7;
const entries = Number(process.argv[2] ?? 60);
const web = process.env.SOWTIDE_WEB ? ['--web', process.env.SOWTIDE_WEB] : [];
const { url, stop } = await serveLargeGarden(process.argv[3] ?? process.env.SOWTIDE_BIN ?? kProgram, web);
const browser = await startBrowser();

/** From the address given to the first text or shape on the screen, nothing kept from before; and to the sheet. */
async function visit() {
  const { page, context } = await openPage(browser, url);
  await page.goto(url);
  await page.waitForSelector('[data-key]');
  const times = await page.evaluate(() => ({
    first: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN,
    sheet: performance.now(),
  }));
  await context.close();
  return times;
}

/** Milliseconds from sending an entry to the frame that shows it. */
const enter = (page, entry) =>
  page.evaluate(async (event) => {
    const shape = document.querySelector(`[data-key="bed-${event.stand}"]`);
    if (!shape.classList.contains('planned')) throw new Error(`${event.stand} is sown already`);
    const begin = performance.now();
    const shown = new Promise((resolve) => {
      const watcher = new MutationObserver(() => {
        if (shape.isConnected && shape.classList.contains('planned')) return;
        watcher.disconnect();
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - begin)));
      });
      watcher.observe(shape.closest('svg'), { attributes: true, childList: true, subtree: true });
    });
    const answer = await fetch('/api/events', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify([event]),
    });
    if (!answer.ok) throw new Error(await answer.text());
    return shown;
  }, entry);

try {
  const visits = [];
  for (let i = 0; i < kVisits; i += 1) visits.push(await visit());
  const first = within(
    0.5,
    visits.map((each) => each.first),
  );
  const sheet = within(
    0.5,
    visits.map((each) => each.sheet),
  );
  const { page } = await openPage(browser, url);
  await page.goto(url);
  await page.waitForSelector('[data-key]');
  await page.waitForTimeout(1000);
  await enter(page, entryOf(0));
  const times = [];
  for (let i = 1; i <= entries; i += 1) {
    times.push(await enter(page, entryOf(i)));
    await page.waitForTimeout(100);
  }
  const p95 = within(0.95, times);
  console.log(
    `first content ${first.toFixed(0)} ms, sheet ${sheet.toFixed(0)} ms after the address (middle of ${kVisits} visits)`,
  );
  console.log(
    `entry to page: median ${within(0.5, times).toFixed(0)} ms, p95 ${p95.toFixed(0)} ms, worst ${within(1, times).toFixed(0)} ms of ${entries}`,
  );
  if (!(first < kFirstContentMs)) process.exitCode = 1;
  if (!(p95 <= kEntryMs)) process.exitCode = 1;
} finally {
  await browser.close();
  stop();
}
