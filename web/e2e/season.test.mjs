// The season sheet by mouse, by keys and by touch.

import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { openPage, startBrowser, startServer } from './support.mjs';

let server, browser, stands, garden;
before(async () => {
  server = await startServer();
  browser = await startBrowser();
  stands = (await (await fetch(`${server.url}/api/outlook`)).json()).stands;
  garden = await (await fetch(`${server.url}/api/garden`)).json();
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

async function openSeason(options = {}) {
  const opened = await openPage(browser, server.url, options);
  await opened.page.goto(server.url);
  await opened.page.waitForSelector('[data-key]');
  return opened;
}

const standNow = async (id) => (await (await fetch(`${server.url}/api/outlook/${id}`)).json()).stands[0];
const nextDay = (text) => new Date(Date.parse(text) + 86_400_000).toISOString().slice(0, 10);

/** A planned stand with nothing after it in its stretch, so that a later day is surely free. */
async function movable() {
  const { stands: all } = await (await fetch(`${server.url}/api/outlook`)).json();
  return all.find(
    (stand) =>
      stand.state === 'planned' &&
      !all.some(
        (other) =>
          other.id !== stand.id &&
          other.bed === stand.bed &&
          other.from_m < stand.to_m &&
          stand.from_m < other.to_m &&
          other.sow >= stand.sow,
      ),
  );
}

/** A planned stand and another planned one of its bed beside it, sown within days: dragged there it has no room. */
async function neighboursIn() {
  const { stands: all } = await (await fetch(`${server.url}/api/outlook`)).json();
  const planned = all.filter((stand) => stand.state === 'planned');
  for (const taken of planned)
    for (const mover of planned) {
      const apart = Math.abs(Date.parse(taken.sow) - Date.parse(mover.sow)) / 86_400_000;
      const overlap = mover.from_m < taken.to_m && taken.from_m < mover.to_m;
      if (mover.id !== taken.id && mover.bed === taken.bed && apart <= 21 && !overlap) return [taken, mover];
    }
  throw new Error('no two planned stands lie beside each other in this garden: choose another');
}

describe('season sheet', () => {
  it('draws one shape for each stand in a bed and each stay in a tray, all named', async () => {
    const { page, context } = await openSeason();
    const keys = await page
      .locator('[data-key]')
      .evaluateAll((all) => all.map((each) => each.getAttribute('data-key')));
    assert.equal(new Set(keys).size, keys.length);
    const inTrays = stands.filter((stand) => stand.tray !== '' && stand.method.startsWith('start'));
    assert.equal(keys.filter((key) => key.startsWith('tray-')).length, inTrays.length);
    assert.ok(keys.filter((key) => key.startsWith('bed-')).length <= stands.length);
    const names = await page
      .locator('[data-key]')
      .evaluateAll((all) => all.map((each) => each.getAttribute('aria-label')));
    assert.ok(
      names.every((name) => name && name.length > 20 && !/NaN|undefined|null/.test(name)),
      names.find((name) => /NaN|undefined|null/.test(name)),
    );
    await context.close();
  });

  it('draws a patch as long as its stretch of the bed', async () => {
    const { page, context } = await openSeason();
    const bedStands = stands.filter((stand) =>
      garden.beds.some((bed) => bed.id === stand.bed && bed.length_m * 34 >= 30),
    );
    for (const stand of bedStands) {
      const shape = page.locator(`[data-key="bed-${stand.id}"]`);
      if ((await shape.count()) === 0) continue;
      const height = Number(await shape.getAttribute('height'));
      assert.ok(
        Math.abs(height - Math.max(3, (stand.to_m - stand.from_m) * 34)) < 0.01,
        `${stand.id}: ${height}`,
      );
    }
    await context.close();
  });

  it('goes from patch to patch by arrows, opens one by Enter, and keeps one stop for Tab', async () => {
    const { page, faults, context } = await openSeason();
    assert.equal(await page.locator('[data-key][tabindex="0"]').count(), 1);
    const start = await page.locator('[data-key][tabindex="0"]').getAttribute('data-key');
    await page.locator('[data-key][tabindex="0"]').focus();
    await page.keyboard.press('ArrowDown');
    const reached = await page.evaluate(() => document.activeElement?.getAttribute('data-key'));
    assert.ok(reached && reached !== start, `${start} -> ${reached}`);
    assert.equal(await page.locator('[data-key][tabindex="0"]').count(), 1);
    assert.match(await page.locator('section[aria-labelledby="panel-title"]').innerText(), /ready in/);
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => location.hash.startsWith('#/stand/'));
    assert.equal(await page.evaluate(() => location.hash), `#/stand/${reached.replace(/^(bed|tray)-/, '')}`);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('can be reached with the Tab key alone', async () => {
    const { page, context } = await openSeason();
    for (let i = 0; i < 30; i += 1) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => document.activeElement?.hasAttribute('data-key'))) break;
    }
    assert.equal(await page.evaluate(() => document.activeElement?.hasAttribute('data-key')), true);
    await context.close();
  });

  it('opens with today in sight, also on a phone, and keeps the day at the edge when turned', async () => {
    const { page, context } = await openSeason({ viewport: { width: 360, height: 740 } });
    const todayFromEdge = () =>
      page.evaluate(() => {
        const line = document.querySelector('svg.plot line.today').getBoundingClientRect();
        const names = document.querySelector('.scroll .corner').getBoundingClientRect();
        return line.x - names.right;
      });
    await page.waitForFunction(() => document.querySelector('.scroll').scrollLeft > 0);
    const upright = await todayFromEdge();
    assert.ok(upright > 0 && upright < 100, `today is ${upright} px from the names of the beds`);
    await page.setViewportSize({ width: 740, height: 360 });
    await page.waitForFunction(() => document.querySelector('.scroll').clientWidth > 500);
    await page.waitForTimeout(300);
    const turned = await todayFromEdge();
    assert.ok(turned > 0 && turned < 150, `turned, today is ${turned} px from the names of the beds`);
    await context.close();
  });

  it('zooms by keys and buttons and keeps today in sight', async () => {
    const { page, context } = await openSeason();
    const widthOfPlot = () => page.locator('svg.plot').evaluate((each) => each.getBoundingClientRect().width);
    const todaySeen = () =>
      page.evaluate(() => {
        const line = document.querySelector('svg.plot line.today').getBoundingClientRect();
        const box = document.querySelector('.scroll').getBoundingClientRect();
        return line.x > box.x && line.x < box.right;
      });
    const year = await widthOfPlot();
    assert.equal(await todaySeen(), true);
    await page.getByRole('button', { name: 'Month', exact: true }).click();
    const month = await widthOfPlot();
    assert.ok(month > 3 * year, `${year} -> ${month}`);
    assert.equal(await todaySeen(), true);
    await page.locator('[data-key][tabindex="0"]').focus();
    await page.keyboard.press('+');
    await page.waitForFunction(
      (before) => document.querySelector('svg.plot').getBoundingClientRect().width > before * 3,
      month,
    );
    await page.getByRole('button', { name: 'To today' }).click();
    assert.equal(await todaySeen(), true);
    await context.close();
  });

  it('begins every name inside its patch, ends it there or over free cells of a tray, and clear of every other name at every zoom', async () => {
    const { page, context } = await openSeason();
    for (const zoom of ['Year', 'Month', 'Week']) {
      await page.getByRole('button', { name: zoom, exact: true }).click();
      await page.evaluate(
        () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
      );
      const { words, outside, overlapping } = await page.evaluate(() => {
        // A name in a tray may run on over free cells.
        const boxes = [...document.querySelectorAll('[data-key]')].map((each) => {
          const { left, right, top, bottom } = each.getBoundingClientRect();
          return { left, right: each.dataset.key.startsWith('tray-') ? Infinity : right, top, bottom };
        });
        const words = [...document.querySelectorAll('svg.plot text.words')];
        const holds = (outer, inner) =>
          outer.left <= inner.left &&
          outer.right >= inner.right &&
          outer.top <= inner.top + inner.height / 2 &&
          outer.bottom >= inner.top + inner.height / 2;
        const meet = (a, b) =>
          a.left < b.right - 1 &&
          b.left < a.right - 1 &&
          a.top + 2 < b.bottom - 2 &&
          b.top + 2 < a.bottom - 2;
        const own = words
          .map((word) => ({ text: word.textContent, box: word.getBBox() }))
          .map(({ text, box }) => ({
            text,
            left: box.x,
            right: box.x + box.width,
            top: box.y,
            bottom: box.y + box.height,
          }));
        return {
          words: words.length,
          overlapping: own.flatMap((a, i) =>
            own
              .slice(i + 1)
              .filter((b) => meet(a, b))
              .map((b) => `${a.text} | ${b.text}`),
          ),
          outside: words
            .filter((word) => !boxes.some((box) => holds(box, word.getBoundingClientRect())))
            .map((word) => word.textContent),
        };
      });
      assert.ok(words > 0, zoom);
      assert.deepEqual(outside, [], zoom);
      assert.deepEqual(overlapping, [], zoom);
    }
    await context.close();
  });

  it('shows the numbers of what is pointed at, and free room where nothing stands', async () => {
    const { page, context } = await openSeason();
    const panel = page.locator('section[aria-labelledby="panel-title"]');
    await page.locator('[data-key]').first().hover();
    assert.match(await panel.innerText(), /ready in .*%/);
    const bare = await page.evaluate(() => {
      const plot = document.querySelector('svg.plot');
      const box = document.querySelector('.scroll').getBoundingClientRect();
      const own = plot.getBoundingClientRect();
      for (let y = own.top + 4; y < box.bottom - 8; y += 6) {
        for (let x = box.left + 150; x < box.right - 20; x += 12) {
          const hit = document.elementFromPoint(x, y);
          if (hit?.getAttribute('fill') === 'url(#free)') return { x, y };
        }
      }
      return null;
    });
    assert.ok(bare, 'no free room in sight');
    await page.mouse.move(bare.x, bare.y);
    await page.waitForFunction(() =>
      /Free room in/.test(document.querySelector('section[aria-labelledby="panel-title"]').textContent),
    );
    await context.close();
  });

  it('shows numbers at the first tap and opens the stand at the second', async () => {
    const { page, context } = await openSeason({
      viewport: { width: 360, height: 740 },
      hasTouch: true,
      isMobile: true,
    });
    const shape = page.locator('[data-key^="bed-"]').first();
    const box = await shape.boundingBox();
    const sheet = await page.locator('.scroll').boundingBox();
    const x = Math.min(Math.max(box.x + 8, sheet.x + 90), sheet.x + sheet.width - 10);
    const y = box.y + box.height / 2;
    await page.touchscreen.tap(x, y);
    assert.match(await page.locator('section[aria-labelledby="panel-title"]').innerText(), /ready in/);
    assert.doesNotMatch(await page.evaluate(() => location.hash), /stand/);
    await page.touchscreen.tap(x, y);
    await page.waitForFunction(() => location.hash.startsWith('#/stand/'));
    await context.close();
  });

  it('says lengths in feet and weights in pounds once switched, and remembers it', async () => {
    const { page, context } = await openSeason();
    await page.locator('header summary').click();
    await page.getByRole('button', { name: 'US', exact: true }).click();
    await page.locator('[data-key^="bed-"]').first().focus();
    assert.match(await page.locator('[data-key^="bed-"]').first().getAttribute('aria-label'), / (ft|in)\b/);
    await page.reload();
    await page.waitForSelector('[data-key]');
    assert.match(await page.locator('[data-key^="bed-"]').first().getAttribute('aria-label'), / (ft|in)\b/);
    await context.close();
  });

  it('speaks German when asked, with German dates', async () => {
    const { page, context } = await openSeason();
    await page.locator('header summary').click();
    await page.getByRole('button', { name: 'Deutsch', exact: true }).click();
    assert.equal(await page.locator('h1').innerText(), 'Das Jahr');
    assert.equal(await page.evaluate(() => document.documentElement.lang), 'de');
    assert.match(
      await page
        .locator('svg')
        .first()
        .evaluate(() => document.querySelector('.axis').textContent),
      /Mai/,
    );
    await context.close();
  });

  it('moves a planned stand by the keys and takes it back', async (test) => {
    const { page, faults, context } = await openSeason();
    const stand = await movable();
    if (!stand) return test.skip('nothing planned in this garden can be moved a day');
    await page.locator(`[data-key="bed-${stand.id}"]`).focus();
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByRole('button', { name: 'Undo the move' }).waitFor();
    assert.equal((await standNow(stand.id)).sow, nextDay(stand.sow));
    await page.getByRole('button', { name: 'Undo the move' }).click();
    await page.getByRole('button', { name: 'Undo the move' }).waitFor({ state: 'detached' });
    assert.equal((await standNow(stand.id)).sow, stand.sow);
    assert.deepEqual(faults, []);
    await context.close();
  });

  /** Takes hold of a stand's patch in the month's zoom; how many pixels a day has there. */
  async function takeHold(page, id) {
    await page.getByRole('button', { name: 'Month', exact: true }).click();
    const shape = page.locator(`[data-key="bed-${id}"]`);
    await shape.focus();
    await shape.scrollIntoViewIfNeeded();
    await page.evaluate(async (key) => {
      const scroll = document.querySelector('.scroll');
      const each = document.querySelector(`[data-key="bed-${key}"]`);
      scroll.scrollLeft += each.getBoundingClientRect().left - scroll.getBoundingClientRect().left - 274;
      scroll.scrollTop = Number(each.getAttribute('y')) - 60;
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    }, id);
    const box = await shape.boundingBox();
    const pixelsPerDay = box.width / Number(await shape.getAttribute('width'));
    return { x: box.x + Math.min(30, box.width / 2), y: box.y + Math.min(10, box.height / 2), pixelsPerDay };
  }

  async function dragTo(page, from, to) {
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + (to.x - from.x) / 3, from.y + (to.y - from.y) / 3, { steps: 3 });
    await page.mouse.move(to.x, to.y, { steps: 5 });
    assert.equal(await page.locator('rect.ghost').count(), 1);
  }

  it('moves a planned stand by dragging it in time to where it is free', async (test) => {
    const { page, faults, context } = await openSeason();
    const stand = await movable();
    if (!stand) return test.skip('nothing planned in this garden can be moved a day');
    const hold = await takeHold(page, stand.id);
    await dragTo(page, hold, { x: hold.x + 4 * hold.pixelsPerDay, y: hold.y });
    // Once the hand rests the table is reckoned by the program, with what keeps in store.
    const { wants } = await (await fetch(`${server.url}/api/garden`)).json();
    if (wants.some((want) => (want.crops ?? [want.crop]).includes(stand.crop)))
      await page.getByText('Reckoned over all weather years').waitFor();
    await page.mouse.up();
    await page.getByRole('button', { name: 'Undo the move' }).waitFor();
    const now = await standNow(stand.id);
    assert.equal((Date.parse(now.sow) - Date.parse(stand.sow)) / 86_400_000, 4);
    assert.deepEqual([now.bed, now.from_m, now.to_m], [stand.bed, stand.from_m, stand.to_m]);
    await page.getByRole('button', { name: 'Undo the move' }).click();
    await page.getByRole('button', { name: 'Undo the move' }).waitFor({ state: 'detached' });
    assert.equal((await standNow(stand.id)).sow, stand.sow);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('refuses a drag onto another stand, says which it would stand on and changes nothing', async () => {
    const { page, faults, context } = await openSeason();
    const [taken, mover] = await neighboursIn();
    const hold = await takeHold(page, mover.id);
    const target = await page.locator(`[data-key="bed-${taken.id}"]`).boundingBox();
    const days = (Date.parse(taken.sow) - Date.parse(mover.sow)) / 86_400_000;
    const top = await page.locator(`[data-key="bed-${mover.id}"]`).boundingBox();
    await dragTo(page, hold, {
      x: hold.x + days * hold.pixelsPerDay,
      y: hold.y + (target.y - top.y),
    });
    await page.getByText(/^\s*No room there: it would stand on /).waitFor();
    await page.mouse.up();
    await page.waitForTimeout(1500);
    assert.equal(await page.getByRole('button', { name: 'Undo the move' }).count(), 0);
    const now = await standNow(mover.id);
    assert.deepEqual([now.bed, now.from_m, now.sow], [mover.bed, mover.from_m, mover.sow]);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('shows no move that was never made, however late the answers to its trying come', async () => {
    const { page, faults, context } = await openSeason();
    const [taken, mover] = await neighboursIn();
    let answered = 0;
    const both = page.waitForEvent(
      'requestfinished',
      (request) => request.url().endsWith('/try') && (answered += 1) === 2,
    );
    await page.route('**/api/stands/*/try', async (route) => {
      await new Promise((done) => setTimeout(done, 1500));
      await route.continue();
    });
    const hold = await takeHold(page, mover.id);
    const shape = page.locator(`[data-key="bed-${mover.id}"]`);
    const before = await shape.boundingBox();
    const target = await page.locator(`[data-key="bed-${taken.id}"]`).boundingBox();
    const days = (Date.parse(taken.sow) - Date.parse(mover.sow)) / 86_400_000;
    const asked = page.waitForRequest('**/api/stands/*/try');
    await dragTo(page, hold, { x: hold.x + days * hold.pixelsPerDay, y: hold.y + (target.y - before.y) });
    await asked;
    await page.mouse.up();
    await both;
    // What the answer changes is drawn by the second frame.
    await page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
    assert.deepEqual(await shape.boundingBox(), before);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('goes back where a move cannot be tried, and tries again with the next', async (test) => {
    const { page, context } = await openSeason();
    const stand = await movable();
    if (!stand) return test.skip('nothing planned in this garden can be moved a day');
    await page.route('**/api/stands/*/try', (route) => route.abort());
    const hold = await takeHold(page, stand.id);
    const shape = page.locator(`[data-key="bed-${stand.id}"]`);
    // In the page's own measure: a box of the browser's also holds the outline.
    const before = await shape.evaluate((patch) => patch.getBoundingClientRect().x);
    await dragTo(page, hold, { x: hold.x + 4 * hold.pixelsPerDay, y: hold.y });
    await page.mouse.up();
    await page.getByText('The garden server is not in reach').waitFor();
    await page.waitForFunction(
      ([key, x]) => Math.abs(document.querySelector(`[data-key="${key}"]`).getBoundingClientRect().x - x) < 1,
      [`bed-${stand.id}`, before],
    );
    assert.equal((await standNow(stand.id)).sow, stand.sow);
    await page.unroute('**/api/stands/*/try');
    await shape.focus();
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByRole('button', { name: 'Undo the move' }).click();
    await page.getByRole('button', { name: 'Undo the move' }).waitFor({ state: 'detached' });
    await context.close();
  });

  it('does not move what has been sown', async () => {
    const { page, context } = await openSeason();
    const sown = stands.find((stand) => stand.state !== 'planned' && stand.state !== 'finished');
    if (!sown) return context.close();
    await page.locator(`[data-key="bed-${sown.id}"]`).focus();
    await page.keyboard.press('Shift+ArrowRight');
    await page.waitForTimeout(300);
    assert.equal((await standNow(sown.id)).sow, sown.sow);
    assert.equal(await page.getByRole('button', { name: 'A week later' }).count(), 0);
    await context.close();
  });
});
