// A walk by keys alone over all pages: each is reached, each control in it can be reached with Tab, is seen to have the focus,
// and lets go of it again.

import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { kWidths, openPage, serverAndBrowser } from './support.mjs';

const kNavPages = ['season', 'today', 'table', 'store', 'packets', 'plan', 'site'];
const kReadySelector = { season: '[data-key]', packets: '.chart li', stand: 'dl' };
/** A page with more stops than this could not be walked by anybody. */
const kMostStops = 1000;
/** Day, month, year and the calendar of a field for a day are stops each, of one element. */
const kMostPartsOfDay = 4;

const running = serverAndBrowser();

/** What has the focus: a number that stays with the element, and how the focus shows. */
const focused = (page) =>
  page.evaluate(() => {
    const element = document.activeElement;
    if (!element || element === document.body) return null;
    window.walkStops ??= new Map();
    const known = window.walkStops;
    const seenBefore = known.has(element);
    if (!seenBefore) known.set(element, known.size);
    const outlined = (each) => {
      const style = getComputedStyle(each);
      return style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
    };
    const inner = element instanceof SVGElement ? [element, ...element.querySelectorAll('rect')] : [];
    const thick = inner.some((each) => parseFloat(getComputedStyle(each).strokeWidth) >= 2);
    const box = element.getBoundingClientRect();
    return {
      stop: known.get(element),
      seenBefore,
      html: element.outerHTML.slice(0, 140),
      shown: outlined(element) || thick,
      inSight: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
      tag: element.localName,
      isDay: element.type === 'date',
      closed: element.localName === 'summary' && !element.parentElement.open,
      href: element.getAttribute('href'),
    };
  });

/** Controls that a pointer could use and that Tab never came to. One of a group of choices is enough. */
const missed = (page) =>
  page.evaluate(() => {
    const stops = window.walkStops;
    const groups = new Set(
      [...stops.keys()].filter((each) => each.type === 'radio').map((each) => each.name),
    );
    return [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
      .filter((each) => each.checkVisibility({ visibilityProperty: true }) && !each.matches(':disabled'))
      .filter((each) => !stops.has(each) && !(each.type === 'radio' && groups.has(each.name)))
      .map((each) => each.outerHTML.slice(0, 140));
  });

/** Tabs once round the page from where the focus is, opening what is folded, until it comes to its first stop again. */
async function walk(page, name) {
  await page.evaluate(() => {
    window.walkStops = undefined;
  });
  let last = null;
  let partsOfDay = 1;
  for (let i = 0; i < kMostStops; i += 1) {
    await page.keyboard.press('Tab');
    const at = await focused(page);
    // Between the last stop and the first the focus is in the frame of the browser.
    if (!at) continue;
    if (at.seenBefore && at.stop === 0) return i;
    partsOfDay = at.stop === last ? partsOfDay + 1 : 1;
    last = at.stop;
    const isNextPart = at.isDay && partsOfDay > 1 && partsOfDay <= kMostPartsOfDay;
    assert.ok(!at.seenBefore || isNextPart, `${name}: the focus is held at ${at.html}`);
    assert.ok(at.shown, `${name}: no focus is seen on ${at.html}`);
    assert.ok(at.inSight, `${name}: the focus lies out of sight on ${at.html}`);
    if (!at.closed) continue;
    await page.keyboard.press('Enter');
    // What is folded may be drawn only once it is open.
    await page.waitForTimeout(200);
  }
  assert.fail(`${name}: no end after ${kMostStops} stops`);
}

/** Goes on with Tab until something fits, and gives it. */
async function tabTo(page, what, fits) {
  for (let i = 0; i < kMostStops; i += 1) {
    await page.keyboard.press('Tab');
    const at = await focused(page);
    if (at && fits(at)) return at;
  }
  assert.fail(`${what} is not reached by Tab`);
}

async function ready(page, name) {
  await page.waitForSelector(kReadySelector[name] ?? 'h1');
  await page.waitForFunction(
    () => !document.querySelector('main')?.textContent?.includes('Reading the garden'),
  );
  await page.waitForTimeout(300);
}

async function walked(page, name) {
  const stops = await walk(page, name);
  assert.ok(stops > kNavPages.length, `${name}: only ${stops} stops`);
  assert.deepEqual(await missed(page), [], name);
}

for (const width of kWidths) {
  describe(`by keys alone at ${width} px`, () => {
    it('every page is reached, and every control in it', async () => {
      const { page, faults, context } = await openPage(running.browser, running.server.url, {
        viewport: { width, height: 800 },
        reducedMotion: 'reduce',
      });
      await page.goto(running.server.url);
      await ready(page, 'season');
      await walked(page, 'season');
      for (const name of kNavPages.slice(1)) {
        await tabTo(page, name, (at) => at.href === `#/${name}`);
        await page.keyboard.press('Enter');
        await page.waitForFunction((hash) => location.hash === hash, `#/${name}`);
        await ready(page, name);
        await walked(page, name);
      }
      await tabTo(page, 'plan', (at) => at.href === '#/plan');
      await page.keyboard.press('Enter');
      await ready(page, 'plan');
      await tabTo(page, 'setup', (at) => at.href === '#/setup');
      await page.keyboard.press('Enter');
      await page.getByRole('heading', { level: 1, name: 'The garden' }).waitFor();
      await ready(page, 'setup');
      await walked(page, 'setup');
      await tabTo(page, 'season', (at) => at.href === '#/season');
      await page.keyboard.press('Enter');
      await ready(page, 'season');
      await tabTo(page, 'a patch', (at) => /data-key/.test(at.html));
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      await page.waitForFunction(() => location.hash.startsWith('#/stand/'));
      await ready(page, 'stand');
      await walked(page, 'stand');
      assert.deepEqual(faults, []);
      await context.close();
    });

    it('a number is opened and closed, and the focus comes back to it', async () => {
      const { page, context } = await openPage(running.browser, running.server.url, {
        viewport: { width, height: 800 },
      });
      await page.goto(`${running.server.url}/#/store`);
      await page.goto(`${running.server.url}/#/table`);
      await ready(page, 'table');
      const number = await tabTo(page, 'a number', (at) => /class="why/.test(at.html));
      await page.keyboard.press('Enter');
      await page.waitForSelector('dialog[open]');
      for (let i = 0; i < 4; i += 1) {
        await page.keyboard.press('Tab');
        const inside = await page.evaluate(
          () =>
            document.activeElement === document.body ||
            document.activeElement.closest('dialog[open]') !== null,
        );
        assert.ok(inside, 'the focus went behind the open sheet');
      }
      await page.keyboard.press('Escape');
      await page.waitForSelector('dialog[open]', { state: 'detached' });
      assert.equal((await focused(page))?.stop, number.stop);
      await context.close();
    });

    it('a device is paired, and the way past the head of the page is the first stop', async () => {
      const { page, context } = await openPage(running.browser, running.server.url, {
        viewport: { width, height: 800 },
        serviceWorkers: 'block',
      });
      await page.route('**/api/**', (route) =>
        route.fulfill({ status: 401, json: { error: { code: 'usage', what: 'not paired', remedy: '' } } }),
      );
      await page.goto(running.server.url);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await walked(page, 'pair');
      await page.reload();
      await page.getByRole('heading', { level: 1 }).waitFor();
      await page.keyboard.press('Tab');
      assert.equal((await focused(page)).href, '#main');
      await page.keyboard.press('Enter');
      await page.keyboard.press('Tab');
      assert.equal((await focused(page)).tag, 'input');
      await context.close();
    });
  });
}
