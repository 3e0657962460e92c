// A stand's page: the clumps on a day, trying to take some out before doing it, and the why of its numbers by keys.

import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import AxeBuilder from '@axe-core/playwright';
import { isReal, logEvents, openPage, startBrowser, startServer, waitingAre } from './support.mjs';

let server, browser, stand;
before(async () => {
  server = await startServer();
  browser = await startBrowser();
  const { stands, today } = await (await fetch(`${server.url}/api/outlook`)).json();
  // One of which plants surely stand in the bed by now.
  const isUp = (each) =>
    each.events.some((event) => event.name === 'emerge' && event.p90 !== null && event.p90 < today);
  const inGround = stands.filter(
    (each) => each.state !== 'planned' && each.state !== 'finished' && each.method === 'direct-sow',
  );
  stand = inGround.find(isUp);
  if (isReal()) await logCounted(stand, today);
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

/** Only what is seen to be up by the log can be thinned. */
async function logCounted({ id, clumps }, date) {
  await logEvents(server.url, [{ id: 'seen-up', date, kind: 'counted', stand: id, count: clumps }]);
}

const hasReaders = () => !spawnSync('zbarimg', ['--version']).error && !spawnSync('pdftoppm', ['-v']).error;

/** What the codes of the first sheet of labels say, as a camera reads them. */
async function codesOfLabels() {
  const directory = mkdtempSync(join(tmpdir(), 'sowtide-labels-'));
  try {
    const pdf = join(directory, 'labels.pdf');
    writeFileSync(pdf, Buffer.from(await (await fetch(`${server.url}/api/print/labels`)).arrayBuffer()));
    execFileSync('pdftoppm', ['-r', '300', '-gray', '-png', '-singlefile', pdf, join(directory, 'labels')]);
    const read = execFileSync('zbarimg', ['-q', '--raw', join(directory, 'labels.png')], {
      encoding: 'utf8',
    });
    return read.trim().split('\n');
  } finally {
    rmSync(directory, { recursive: true });
  }
}

const eventsOf = async () => (await fetch(`${server.url}/api/events`)).json();

describe('stand page', () => {
  it('is opened by the code on the label of the stand', async (test) => {
    if (!isReal() || !hasReaders()) return test.skip('needs the program, zbarimg and pdftoppm');
    const codes = await codesOfLabels();
    const { stands } = await (await fetch(`${server.url}/api/outlook`)).json();
    assert.ok(codes.length > 0);
    const { page, faults, context } = await openPage(browser, server.url, {
      viewport: { width: 360, height: 740 },
    });
    for (const code of codes.slice(0, 3)) {
      assert.ok(code.startsWith(`${server.url}/#/stand/`), code);
      const labelled = stands.find((each) => code.endsWith(`/${each.id}`));
      await page.goto(code);
      await page.getByText(`label ${labelled.id}`).first().waitFor();
      assert.match(await page.locator('h1').innerText(), new RegExp(labelled.crop_name.split(' ')[0]));
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('is quiet and no wider than a phone when it is opened at once, planned or sown, in German', async () => {
    const { stands } = await (await fetch(`${server.url}/api/outlook`)).json();
    const planned = stands.filter((each) => each.state === 'planned').slice(0, 3);
    for (const each of [...planned, stand]) {
      const { page, faults, context } = await openPage(browser, server.url, {
        viewport: { width: 360, height: 740 },
        locale: 'de-DE',
      });
      await page.goto(`${server.url}/#/stand/${each.id}`);
      await page.getByRole('heading', { name: 'Was wann kommt' }).waitFor();
      // The stream of changes never ends, so the network is not idle: what is asked for has come by then.
      await page.waitForTimeout(1500);
      assert.ok(
        await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth),
        `${each.id} is wider than the screen`,
      );
      assert.deepEqual(faults, [], each.id);
      await context.close();
    }
  });

  it('shows other sizes on another day', async () => {
    const { page, faults, context } = await openPage(browser, server.url);
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    const study = page.locator('section', {
      has: page.getByRole('heading', { name: 'The clumps, to scale' }),
    });
    await study
      .locator('svg circle')
      .first()
      .waitFor({ state: 'attached' })
      .catch(() => undefined);
    const words = () => study.locator('figcaption strong').innerText();
    const first = await words();
    await study.locator('input[type=range]').focus();
    await page.keyboard.press('End');
    assert.notEqual(await words(), first);
    assert.match(await words(), /8 single plants in 10 between/);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('tells how many are how large on the day of the slider', async () => {
    const { page, faults, context } = await openPage(browser, server.url, {
      viewport: { width: 360, height: 740 },
    });
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    const fan = page.locator('section', {
      has: page.getByRole('heading', { name: 'Weight of one plant', exact: true }),
    });
    const sizes = fan.locator('table');
    await sizes.waitFor();
    assert.deepEqual(
      (await sizes.locator('tbody th').allInnerTexts()).map((text) => text.split(/\s/)[0]),
      ['smallest', 'small', 'large', 'over-size'],
    );
    const slider = fan.locator('input[type=range]');
    const chosen = Number(await slider.getAttribute('min')) + 40;
    await slider.fill(String(chosen));
    const day = new Date(chosen * 86_400_000).toISOString().slice(0, 10);
    const answer = await (await fetch(`${server.url}/api/outlook/${stand.id}?on=${day}`)).json();
    const rows = answer.stands[0].standing.sizes;
    const name = (await slider.getAttribute('aria-valuetext')).split(':')[0];
    await sizes.getByText(`How many are how large on ${name}`).waitFor();
    const told = await sizes
      .locator('tbody tr')
      .evaluateAll((all) =>
        all.map((row) => [...row.querySelectorAll('td')].map((cell) => Number(cell.firstChild.textContent))),
      );
    assert.deepEqual(
      told,
      rows.map(({ plants }) => [plants.p10, plants.p50, plants.p90].map(Math.round)),
    );
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('says one weight of the average plant today, judged or drawn', async () => {
    const { page, context } = await openPage(browser, server.url);
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    const drawn = page.locator('figcaption strong', { hasText: 'a plant on average' });
    await drawn.waitFor();
    const pulled = page.locator('table', { has: page.getByText('A plant on average') });
    const judged = await pulled.locator('tbody tr').first().locator('td').first().innerText();
    assert.match(judged, /^[\d.]+ k?g$/);
    assert.ok(
      (await drawn.innerText()).includes(`: ${judged} a plant on average`),
      `${await drawn.innerText()} against ${judged}`,
    );
    await context.close();
  });

  it('tries a removal on the picture without writing, then logs it and takes it back', async () => {
    const { page, context } = await openPage(browser, server.url, { viewport: { width: 360, height: 740 } });
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    const choice = page.getByRole('button', { name: /^(Take the largest|Take all that)/ }).first();
    await page.getByRole('heading', { name: 'The clumps, to scale' }).waitFor();
    await choice.waitFor();
    const before = (await eventsOf()).length;
    await choice.click();
    await page.getByText(/^That takes/).waitFor();
    assert.equal((await eventsOf()).length, before);
    const log = page.getByRole('button', { name: /^Done: log/ });
    if ((await log.count()) > 0) {
      await log.click();
      await page.getByRole('button', { name: 'Undo' }).click();
      await waitingAre(page, 0);
      const written = (await eventsOf()).slice(before);
      assert.equal(written.length, 2);
      assert.equal(written[1].kind, 'corrected');
      assert.equal(written[1].target, written[0].id);
    }
    await context.close();
  });

  it('tries leaves as greens, and logs them as leaves and no plants', async (test) => {
    const { stands } = await (await fetch(`${server.url}/api/outlook`)).json();
    const beet = stands.find((each) => ['up', 'growing'].includes(each.state) && each.crop === 'beet');
    if (!beet) return test.skip('no beets stand on this day');
    const { page, faults, context } = await openPage(browser, server.url);
    await page.goto(`${server.url}/#/stand/${beet.id}`);
    const before = (await eventsOf()).length;
    await page.getByRole('button', { name: 'Take a third of the leaves' }).click();
    await page.getByText(/^That takes .* of leaves today/).waitFor();
    await page.getByRole('button', { name: /^Done: log .* of leaves picked/ }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    await waitingAre(page, 0);
    const [written] = (await eventsOf()).slice(before);
    assert.equal(written.kind, 'picked');
    assert.equal(written.text, 'leaves');
    assert.equal(written.count, undefined);
    assert.ok(written.grams > 0);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('takes a size by eye with one tap, a width and a weighing by steppers, and each back again', async () => {
    const { page, faults, context } = await openPage(browser, server.url, {
      viewport: { width: 360, height: 740 },
    });
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    const part = page.locator('section', { has: page.getByRole('heading', { name: 'Tell what you see' }) });
    const before = (await eventsOf()).length;
    const sent = () => waitingAre(page, 0);
    const logAndUndo = async (press) => {
      await press();
      await part.getByText(/^✓ Logged: measured/).waitFor();
      await sent();
      await part.getByRole('button', { name: 'Undo' }).click();
      await sent();
    };
    await logAndUndo(() => part.getByRole('button', { name: /^large/ }).click());
    const felt = part.getByRole('button', { name: 'Felt' });
    const isRound = (await felt.count()) > 0;
    if (isRound) {
      await felt.click();
      await part.getByRole('button', { name: 'More: One across' }).click();
      await logAndUndo(() => part.getByRole('button', { name: 'Log: measured' }).click());
    }
    await part.getByRole('button', { name: 'Weighed' }).click();
    await part.getByRole('button', { name: 'Less: How many were weighed' }).click();
    await logAndUndo(() => part.getByRole('button', { name: 'Log: measured' }).click());
    for (const button of await part.getByRole('button').all()) {
      const { width, height } = await button.boundingBox();
      assert.ok(width >= 44 && height >= 44, `${await button.innerText()}: ${width} × ${height}`);
    }

    const written = (await eventsOf()).slice(before);
    const measured = written.filter((event) => event.kind === 'measured');
    assert.equal(measured.length, isRound ? 3 : 2);
    assert.equal(measured[0].text, 'large');
    if (isRound) assert.ok(measured[1].diameter_mm > 5);
    assert.ok(measured.at(-1).grams > 0);
    assert.ok(measured.every((event) => event.stand === stand.id));
    assert.deepEqual(
      written.filter((event) => event.kind === 'corrected').map((event) => event.target),
      measured.map((event) => event.id),
    );
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('marks on the fan what was measured as a diameter', async (test) => {
    if (!isReal()) return test.skip('the pretended server turns no diameter into a weight');
    const { stands, today } = await (await fetch(`${server.url}/api/outlook`)).json();
    const root = stands.find(
      (each) =>
        ['sown', 'up', 'growing'].includes(each.state) && ['beet', 'radish', 'carrot'].includes(each.crop),
    );
    if (!root) return test.skip('no root stands on this day');
    await logEvents(server.url, [
      { id: 'felt', date: today, kind: 'measured', stand: root.id, diameter_mm: 20 },
    ]);
    const { page, context } = await openPage(browser, server.url, { viewport: { width: 1000, height: 800 } });
    await page.goto(`${server.url}/#/stand/${root.id}`);
    await page.locator('path.seen').first().waitFor({ state: 'attached' });
    assert.equal(await page.locator('path.seen').count(), 1);
    await context.close();
  });

  it('shows two weighings of one day, on the fan and in words', async () => {
    const { today } = await (await fetch(`${server.url}/api/today`)).json();
    for (const [id, grams] of [
      ['weighed-1', 40],
      ['weighed-2', 44],
    ]) {
      await logEvents(server.url, [{ id, date: today, kind: 'measured', stand: stand.id, grams }]);
    }
    const { page, faults, context } = await openPage(browser, server.url);
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    await page.locator('path.seen').first().waitFor({ state: 'attached' });
    assert.equal(await page.locator('path.seen').count(), 2);
    assert.match(await page.locator('figcaption', { hasText: '◆' }).innerText(), /40 g.*44 g|44 g.*40 g/s);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('opens a why at its heading on a phone, however long it is', async () => {
    const { page, context } = await openPage(browser, server.url, {
      viewport: { width: 360, height: 480 },
      reducedMotion: 'reduce',
    });
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    await page.locator('main dl .why').first().click();
    await page.getByText(/of \d+ weather years/).waitFor();
    const [scrolled, hidden] = await page
      .getByRole('dialog')
      .evaluate((dialog) => [dialog.scrollTop, dialog.scrollHeight - dialog.clientHeight]);
    assert.ok(hidden > 0, 'the sheet must be longer than the screen for this to be tested');
    assert.equal(scrolled, 0);
    assert.equal(await page.evaluate(() => document.activeElement?.id), 'why-title');
    await context.close();
  });

  it('closes a why when the browser goes back to another page', async () => {
    const { page, context } = await openPage(browser, server.url, { reducedMotion: 'reduce' });
    await page.goto(`${server.url}/#/store`);
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    await page.locator('main dl .why').first().click();
    await page.getByRole('dialog').waitFor();
    await page.goBack();
    await page.waitForFunction(() => location.hash === '#/store');
    await page.waitForFunction(() => !document.querySelector('dialog[open]'), undefined, { timeout: 5000 });
    await context.close();
  });

  it('opens a why by the keys alone, and gives the focus back', async () => {
    const { page, context } = await openPage(browser, server.url, { reducedMotion: 'reduce' });
    await page.goto(`${server.url}/#/stand/${stand.id}`);
    await page.waitForSelector('main dl .why');
    await page.locator('main dl .why').first().focus();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await page.getByRole('heading', { name: 'How sure' }).waitFor();
    await page.getByText(/of \d+ weather years/).waitFor();
    const { violations } = await new AxeBuilder({ page }).include('dialog').analyze();
    assert.deepEqual(
      violations.map((each) => `${each.id}: ${each.nodes[0].html.slice(0, 150)}`),
      [],
    );
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => !document.querySelector('dialog[open]'));
    assert.ok(await page.evaluate(() => document.activeElement?.classList.contains('why')));
    await context.close();
  });
});
