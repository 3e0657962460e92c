// Logging work in one tap, taking it back, and working off the network.

import assert from 'node:assert/strict';
import { afterEach, beforeEach, describe, it } from 'node:test';
import { startMock } from '../mock/server.mjs';
import { kToday, makeGarden } from './garden.mjs';
import {
  cardOf,
  isReal,
  keyOf,
  kWidths,
  logEvents,
  openCards,
  openPage,
  startBrowser,
  startProgram,
  startServer,
  waitingAre,
} from './support.mjs';

let server, browser;
beforeEach(async () => {
  server = await startServer();
  browser = await startBrowser();
});
async function stopAll() {
  await browser?.close();
  await server?.stop();
  browser = server = undefined;
}
afterEach(stopAll);

/** Node runs no `afterEach` of a test that skips itself: what it has begun is stopped here. */
async function skipped(test, why) {
  await stopAll();
  test.skip(why);
}

const eventsOf = async () => (await fetch(`${server.url}/api/events`)).json();
const kLog = /^Log: /;

async function openToday(options = {}) {
  const opened = await openPage(browser, server.url, options);
  await opened.page.goto(`${server.url}/#/today`);
  await opened.page.waitForFunction(
    () =>
      document.querySelectorAll('main h1').length > 0 &&
      !document.querySelector('main').textContent.includes('Reading'),
  );
  const { tasks, today } = await (await fetch(`${server.url}/api/today`)).json();
  await openCards(opened.page);
  assert.ok(
    tasks.some((task) => task.log_event),
    'this garden has no work to log today: choose another day',
  );
  return { ...opened, tasks, today };
}

describe('today', () => {
  it('lists the work in the order of the answer', async () => {
    const { page, tasks, today, context } = await openToday();
    const cards = page.locator('main .columns > div > ol > li');
    const first = await cards.evaluateAll((all) =>
      all.map((each) => each.dataset.task ?? each.querySelector('[data-task]').dataset.task),
    );
    // Of each kind of work and crop of a day the most pressing is told first; what is not for now stands apart.
    const seen = new Set();
    const expected = tasks.filter((task) => {
      const said = task.said.reason.map((phrase) => phrase.key);
      const day = task.due <= today ? today : task.due;
      const work = [task.kind, task.crop, task.log_event, day].join('/');
      return !said.includes('missed') && !said.includes('nothing-yet') && !seen.has(work) && seen.add(work);
    });
    assert.deepEqual(first, expected.map(keyOf));
    const badge = page.getByRole('navigation', { name: 'Pages' }).locator('.count');
    assert.equal(await badge.innerText(), String(expected.length));
    await context.close();
  });

  it('calls a stand by crop and bed, and gives its id as its label only', async () => {
    const { page, tasks, context } = await openToday();
    const { stands } = await (await fetch(`${server.url}/api/outlook`)).json();
    for (const task of tasks) {
      const stand = stands.find((each) => each.id === task.stand);
      if (!stand) continue;
      const card = await cardOf(page, task).innerText();
      assert.ok(card.includes(stand.bed_name), `${card} does not name ${stand.bed_name}`);
      assert.ok(card.includes(`label ${stand.id}`));
      assert.ok(!new RegExp(`\\b${stand.id}\\b`).test(card.replace(`label ${stand.id}`, '')), card);
    }
    await context.close();
  });

  it('says the work in German, with US measures where those are chosen', async () => {
    const { page, context } = await openPage(browser, server.url, { locale: 'de-DE' });
    await page.addInitScript(() => {
      localStorage.setItem('sowtide.preferences', JSON.stringify({ language: 'de', units: 'us' }));
    });
    await page.goto(`${server.url}/#/today`);
    await page.locator('main ol > li').first().waitFor();
    const words = page.locator('main ol > li');
    assert.equal(
      await words.locator('p:not(.caution)[lang=en], strong[lang=en], .where [lang=en]').count(),
      0,
    );
    const all = (await words.locator('p:not(.caution)').allInnerTexts()).join('\n');
    assert.match(all, /Wetterjahre/);
    assert.doesNotMatch(all, /weather years| apart| deep|\d (cm|mm|m|g|kg|°C)\b/);
    await context.close();
  });

  it('tells beside the work, and on a phone below it, what this week and the next bring', async () => {
    for (const width of kWidths) {
      const { page, faults, context } = await openPage(browser, server.url, {
        viewport: { width, height: 900 },
      });
      await page.goto(`${server.url}/#/today`);
      const aside = page.getByRole('complementary', { name: 'The weeks ahead' });
      await aside.waitFor();
      assert.deepEqual(await aside.getByRole('heading', { level: 2 }).allInnerTexts(), [
        'This week',
        'Next week',
      ]);
      const work = await page.locator('main .columns > div').boundingBox();
      const box = await aside.boundingBox();
      if (width > 1000) assert.ok(box.x >= work.x + work.width, 'beside');
      else assert.ok(box.y >= work.y + work.height, 'below');
      assert.deepEqual(faults, []);
      await context.close();
    }
  });

  it('logs with one tap and takes it back with one more', async () => {
    const { page, faults, tasks, context } = await openToday();
    const before = await eventsOf();
    const index = tasks.findIndex((task) => task.log_event);
    await cardOf(page, tasks[index]).getByRole('button', { name: kLog }).click();
    await page.getByRole('button', { name: 'Undo' }).waitFor();
    const said = await page
      .locator('main ul.done li span')
      .first()
      .evaluate((each) => each.textContent);
    assert.match(said, /^✓ Logged: \S+( \S+)*$/);
    await waitingAre(page, 0);
    const logged = (await eventsOf()).filter((event) => !before.some((known) => known.id === event.id));
    assert.equal(logged.length, 1);
    assert.equal(logged[0].kind, tasks[index].log_event);
    assert.equal(logged[0].stand ?? '', tasks[index].stand);
    await page.getByRole('button', { name: 'Undo' }).click();
    await waitingAre(page, 0);
    const after = (await eventsOf()).filter((event) => !before.some((known) => known.id === event.id));
    assert.deepEqual(after.map((event) => event.kind).sort(), ['corrected', logged[0].kind].sort());
    assert.equal(after.find((event) => event.kind === 'corrected').target, logged[0].id);
    await page.waitForFunction(
      (wanted) => document.querySelectorAll('[data-task]').length === wanted,
      tasks.length,
    );
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('keeps the focus by the work when it is logged and taken back by keys', async () => {
    const { page, tasks, context } = await openToday();
    const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim());
    const log = cardOf(page, tasks[0]).locator('.act');
    const name = (await log.innerText()).trim();
    await log.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Undo' }).waitFor();
    assert.equal(await focused(), 'Undo');
    await waitingAre(page, 0);
    await page.waitForTimeout(1000);
    assert.equal(await focused(), 'Undo', 'also after the garden was read again');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Undo' }).waitFor({ state: 'detached' });
    assert.equal(await focused(), name);
    await context.close();
  });

  it('sets an amount with the buttons and sends that amount', async (test) => {
    const { page, tasks, context } = await openToday();
    const index = tasks.findIndex(
      (task) => ['sown', 'counted', 'set-out', 'thinned'].includes(task.log_event) && task.log_count >= 1,
    );
    if (index < 0) return skipped(test, 'no counted work today in this garden');
    const card = cardOf(page, tasks[index]);
    await card.getByRole('button', { name: /^More/ }).click();
    const shown = Number((await card.getByRole('textbox').inputValue()).replace(/[^0-9]/g, ''));
    assert.ok(shown > tasks[index].log_count);
    const before = await eventsOf();
    await card.getByRole('button', { name: kLog }).click();
    await waitingAre(page, 0);
    const event = (await eventsOf()).find((each) => !before.some((known) => known.id === each.id));
    assert.equal(event.count, shown);
    await context.close();
  });

  it('takes an amount that is typed, with the comma of German, and says what is none', async (test) => {
    const { page, faults, tasks, context } = await openToday({ locale: 'de-DE' });
    const index = tasks.findIndex((task) => task.log_event === 'picked');
    if (index < 0) return skipped(test, 'nothing to pick today in this garden');
    const card = cardOf(page, tasks[index]);
    const field = card.getByRole('textbox', { name: 'Menge' });
    assert.equal(await field.getAttribute('inputmode'), 'decimal');
    await field.fill('viel');
    await field.press('Enter');
    assert.match(await card.getByRole('alert').innerText(), /„viel“ ist hier keine Menge/);
    await field.fill('3,8 kg');
    await field.press('Enter');
    assert.equal(await field.inputValue(), '3,8');
    assert.equal(await card.getByRole('alert').count(), 0);
    await field.fill('3,85');
    const before = await eventsOf();
    await card.getByRole('button', { name: /^Eintragen: / }).click();
    await waitingAre(page, 0);
    const event = (await eventsOf()).find((each) => !before.some((known) => known.id === each.id));
    assert.equal(event.grams, 3850);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('ticks off for the day what leaves no entry of its own, on every device', async (test) => {
    const { page, faults, tasks, context } = await openToday();
    const task = tasks.find((each) => !each.log_event);
    if (!task) return skipped(test, 'nothing of the kind is due today in this garden');
    const badge = page.getByRole('navigation', { name: 'Pages' }).locator('.count');
    const before = Number(await badge.innerText());
    await cardOf(page, task).getByRole('button', { name: 'Done today' }).click();
    await cardOf(page, task).waitFor({ state: 'detached' });
    await waitingAre(page, 0);
    const other = await openPage(browser, server.url);
    await other.page.goto(`${server.url}/#/today`);
    await other.page.locator('[data-task]').first().waitFor({ state: 'attached' });
    await cardOf(other.page, task).waitFor({ state: 'detached' });
    assert.ok(
      Number(await other.page.getByRole('navigation').first().locator('.count').innerText()) <= before,
    );
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await cardOf(page, task).waitFor({ state: 'attached' });
    assert.deepEqual([...faults, ...other.faults], []);
    await other.context.close();
    await context.close();
  });

  it('shows what is due tomorrow of the same kind, once what was due today is logged', async () => {
    const { page, faults, tasks, context } = await openToday({ serviceWorkers: 'block' });
    const index = tasks.findIndex((task) => task.log_event);
    const { due } = tasks[index];
    const tomorrow = new Date(Date.parse(due) + 86_400_000).toISOString().slice(0, 10);
    const card = cardOf(page, tasks[index]);
    const place = await card.locator('.where strong').innerText();
    const alike = page.locator('[data-task]').filter({ hasText: place });
    const before = await alike.count();
    await page.route('**/api/today', async (route) => {
      const answer = await route.fetch();
      const list = await answer.json();
      const next = tasks.map((task, i) => (i === index ? { ...task, due: tomorrow } : task));
      await route.fulfill({ response: answer, json: { ...list, tasks: next } });
    });
    await card.getByRole('button', { name: kLog }).click();
    await page.getByRole('button', { name: 'Undo' }).first().waitFor();
    await page.waitForFunction(
      ([text, wanted]) =>
        [...document.querySelectorAll('[data-task]')].filter((each) => each.textContent.includes(text))
          .length === wanted,
      [place, before],
    );
    assert.deepEqual(faults, []);
    await page.unrouteAll({ behavior: 'wait' }); // an answer that is still being made would outlive the page
    await context.close();
  });

  it('takes an answer that broke off for a server out of reach, and shows what it has', async () => {
    const { page, faults, context } = await openToday({ serviceWorkers: 'block' });
    await page.route('**/api/outlook', (route) =>
      route.fulfill({ status: 200, contentType: 'application/json', body: '{"garden": "Cut o' }),
    );
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await page.getByText('The garden server is not in reach').waitFor();
    assert.ok((await page.locator('main ol > li').count()) > 0);
    await page.unroute('**/api/outlook');
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await page.getByText('The garden server is not in reach').waitFor({ state: 'detached' });
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('says what looks odd about an entry, and takes it back where it was a slip', async (test) => {
    if (!isReal()) return skipped(test, 'the answer comes from the program');
    // A garden and a day of its own: in whichever the others run, a sowing is due in this one.
    const binary = process.env.SOWTIDE_BIN;
    const own = await startProgram(binary, makeGarden(binary), kToday);
    await server.stop();
    server = own;
    const { page, faults, tasks, context } = await openToday();
    const sowing = tasks.find((task) => task.log_event === 'sown' && task.log_count >= 1);
    assert.ok(sowing, `a sowing is due on ${kToday}`);
    const slip = { id: 'slip', date: sowing.due, kind: 'sown', stand: sowing.stand, count: 90_000 };
    await page.evaluate(
      (event) => localStorage.setItem('sowtide.outbox', JSON.stringify({ waiting: [event], refused: [] })),
      slip,
    );
    await page.reload();
    const notice = page.locator('.notice', { hasText: 'looks odd' });
    await notice.waitFor();
    assert.match(await notice.innerText(), /90,000 seeds, where the plan has \d+/);
    await notice.getByRole('button', { name: 'Take it back' }).click();
    await notice.waitFor({ state: 'detached' });
    await waitingAre(page, 0);
    assert.ok((await eventsOf()).some(({ kind, target }) => kind === 'corrected' && target === 'slip'));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('asks whether a sowing is up, and logs that nothing came and it was sown again with one tap', async (test) => {
    if (!isReal()) return skipped(test, 'the stand-in works out nothing anew');
    const { page, faults, tasks, context } = await openToday({ viewport: { width: 360, height: 740 } });
    assert.ok(
      tasks.every((task) => task.kind !== 're-sow'),
      'nobody has looked yet',
    );
    const index = tasks.findIndex((task) => task.again_count > 0);
    const { stand, again_count: seeds } = tasks[index];
    const card = cardOf(page, tasks[index]);
    assert.match(await card.getByRole('heading').innerText(), /^Look whether it is up/);
    const before = await eventsOf();
    await card.getByRole('button', { name: 'Nothing came: sown again' }).click();
    await waitingAre(page, 0);
    const made = (await eventsOf()).filter((event) => !before.some((known) => known.id === event.id));
    assert.deepEqual(
      made.map((event) => [event.kind, event.stand, event.count]),
      [
        ['counted', stand, 0],
        ['sown', stand, seeds],
      ],
    );
    const factsNow = async () => {
      const { stands } = await (await fetch(`${server.url}/api/outlook/${stand}`)).json();
      return stands[0].facts;
    };
    const { today } = await (await fetch(`${server.url}/api/today`)).json();
    assert.equal((await factsNow()).sown, today);
    await page.getByRole('button', { name: 'Undo' }).click();
    await waitingAre(page, 0);
    assert.notEqual((await factsNow()).sown, today);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('keeps entries made off the network over a reload, then sends each once', async () => {
    const { page, tasks, context } = await openToday({ serviceWorkers: 'block' });
    const before = await eventsOf();
    await page.route('**/api/events/sync', (route) => route.abort());
    const index = tasks.findIndex((task) => task.log_event);
    await cardOf(page, tasks[index]).getByRole('button', { name: kLog }).click();
    await page.getByText('1 entry waits to be sent.').waitFor();
    await page.reload();
    await page.getByText('1 entry waits to be sent.').waitFor();
    assert.equal((await eventsOf()).length, before.length);
    await page.unroute('**/api/events/sync');
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await waitingAre(page, 0);
    assert.equal((await eventsOf()).length, before.length + 1);
    await context.close();
  });

  it('takes an entry back after the page was opened anew', async () => {
    const { today, tasks } = await (await fetch(`${server.url}/api/today`)).json();
    const stand = tasks.find((task) => task.stand).stand;
    const entry = { id: `anew-${Date.now()}`, date: today, kind: 'noted', stand, text: 'slugs' };
    await logEvents(server.url, [entry]);
    const { page, faults, context } = await openPage(browser, server.url, {
      viewport: { width: 360, height: 740 },
    });
    for (const hash of ['today', `stand/${stand}`]) {
      await page.goto(`${server.url}/#/${hash}`);
      await page.locator('summary', { hasText: /^(Logged today|Logbook of this stand) \(\d+\)$/ }).click();
      await page.getByRole('button', { name: /^Undo: .*slugs/ }).waitFor();
    }
    await page.getByRole('button', { name: /^Undo: .*slugs/ }).click();
    await page.getByRole('button', { name: /^Undo: .*slugs/ }).waitFor({ state: 'detached' });
    await waitingAre(page, 0);
    const events = await eventsOf();
    assert.equal(events.filter((event) => event.kind === 'corrected' && event.target === entry.id).length, 1);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('does not double an entry whose answer was lost', async () => {
    const { page, tasks, context } = await openToday();
    const before = await eventsOf();
    let lost = 0;
    await page.route('**/api/events/sync', async (route) => {
      if (route.request().method() !== 'POST' || lost > 0) return route.continue();
      lost += 1;
      await route.fetch();
      return route.abort();
    });
    const index = tasks.findIndex((task) => task.log_event);
    await cardOf(page, tasks[index]).getByRole('button', { name: kLog }).click();
    await waitingAre(page, 1);
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await waitingAre(page, 0);
    assert.equal(lost, 1);
    assert.equal((await eventsOf()).length, before.length + 1);
    await context.close();
  });

  it('shows in one window what was logged in another', async () => {
    const one = await openToday();
    const two = await openToday();
    const index = one.tasks.findIndex((task) => task.log_event && task.log_event !== 'noted');
    const { place, kind } = one.tasks[index];
    if (!isReal())
      assert.ok((await two.page.locator('[data-task] .where strong').allInnerTexts()).includes(place));
    const told = isReal()
      ? two.page.waitForResponse((response) => response.url().endsWith('/api/today'), { timeout: 60000 })
      : undefined;
    await cardOf(one.page, one.tasks[index]).getByRole('button', { name: kLog }).click();
    if (!isReal()) {
      await two.page.waitForFunction(
        (text) =>
          ![...document.querySelectorAll('[data-task] .where strong')].some(
            (each) => each.textContent === text,
          ),
        place,
      );
    } else {
      await told;
    }
    assert.ok(kind);
    await one.context.close();
    await two.context.close();
  });
});

// The program's day cannot be turned from here: the stand-in's is, as the program tells it (garden_server_test.cpp).
describe('a page left open over midnight', () => {
  let mock;
  beforeEach(async () => (mock = await startMock()));
  afterEach(() => mock.stop());

  const firstEntryDate = async (page) => {
    await page.getByRole('button', { name: kLog }).first().click();
    for (;;) {
      const [event] = await (await fetch(`${mock.url}/api/events`)).json();
      if (event) return event.date;
      await page.waitForTimeout(100);
    }
  };
  const dayNow = async () => (await (await fetch(`${mock.url}/api/today`)).json()).today;

  async function openOnFirstDay() {
    const opened = await openPage(browser, mock.url);
    await opened.page.goto(`${mock.url}/#/today`);
    await opened.page.getByRole('button', { name: kLog }).first().waitFor();
    const lead = await opened.page.locator('main p.soft').first().innerText();
    return { ...opened, firstDay: await dayNow(), lead };
  }
  /** Resolves when the page names another day than before. */
  const turned = (page, lead) =>
    page.waitForFunction((before) => document.querySelector('main p.soft').innerText !== before, lead);

  it('dates an entry with the new day once it is told of it', async () => {
    const { page, context, firstDay, lead } = await openOnFirstDay();
    mock.beginDay({ told: true });
    await turned(page, lead);
    const date = await firstEntryDate(page);
    assert.notEqual(date, firstDay);
    assert.equal(date, await dayNow());
    await context.close();
  });

  it('looks for the day when it is looked at again, though it slept when that was told', async () => {
    const { page, context, lead } = await openOnFirstDay();
    mock.beginDay({ told: false });
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await turned(page, lead);
    assert.equal(await firstEntryDate(page), await dayNow());
    await context.close();
  });
});
