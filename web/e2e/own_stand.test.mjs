// What no plan knows: stands put in by hand, places put right, bought plants, a cool store and what grew before.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import AxeBuilder from '@axe-core/playwright';
import {
  cardOf,
  isReal,
  kWidths,
  logEvents,
  openPage,
  startBrowser,
  startProgram,
  startServer,
  waitingAre,
} from './support.mjs';

const kDay = '2027-05-20';
const kGarden = `name = "Own"
[site]
name = "Own"
lat = 47.5
lon = 10.0
elevation_m = 50
[normals]
tmax_c = [6, 8, 11, 14, 18, 21, 24, 24, 21, 15, 10, 7]
tmin_c = [0, 0, 2, 4, 7, 10, 12, 12, 9, 6, 3, 1]
precip_mm = [60, 50, 50, 45, 55, 50, 30, 30, 45, 75, 80, 80]
[[beds]]
id = "b1"
name = "Near bed"
length_m = 4
width_m = 1.2
[[beds]]
id = "b2"
name = "Far bed"
length_m = 2
width_m = 1.2
[[beds]]
id = "b3"
name = "Full bed"
length_m = 1.5
width_m = 0.6
[[beds]]
id = "b4"
name = "Spare bed"
length_m = 1.5
width_m = 1.2
[[trays]]
id = "t1"
name = "Sill"
cells = 60
place = "indoors"
[[wants]]
id = "roots"
crop = "beet"
amount_per_week = 300
unit = "grams"
from = "07-01"
to = "10-01"
[[varieties]]
id = "v1"
crop = "leek"
name = "Longshank"
[[stands]]
id = "s1"
crop = "kale"
method = "direct-sow"
sow = 2027-06-10
clumps = 4
plants_per_clump = 1
spacing_mm = 400
bed = "b1"
from_m = 3.2
to_m = 4
[[stands]]
id = "s2"
crop = "carrot"
method = "direct-sow"
sow = 2027-06-10
clumps = 20
plants_per_clump = 1
spacing_mm = 40
bed = "b1"
from_m = 3
to_m = 3.2
[[stands]]
id = "s3"
crop = "lettuce"
method = "start-indoors"
sow = 2027-04-10
clumps = 3
plants_per_clump = 2
spacing_mm = 260
bed = "b1"
from_m = 2.7
to_m = 2.96
tray = "t1"
cells = 3
`;

let server, browser, beds;
before(async () => {
  if (isReal()) {
    const directory = mkdtempSync(join(tmpdir(), 'sowtide-own-'));
    writeFileSync(join(directory, 'garden.toml'), kGarden);
    const garden = join(directory, 'own.sowtide');
    execFileSync(process.env.SOWTIDE_BIN, ['new', garden, '--from', join(directory, 'garden.toml')]);
    execFileSync(process.env.SOWTIDE_BIN, [
      'log',
      garden,
      'sown',
      's3',
      '--date',
      '2027-04-10',
      '--count',
      '6',
    ]);
    server = await startProgram(process.env.SOWTIDE_BIN, garden, kDay);
  } else server = await startServer();
  browser = await startBrowser();
  beds = (await answerOf('garden')).beds;
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

const answerOf = async (path) => (await fetch(`${server.url}/api/${path}`)).json();
const standOf = async (id) => (await answerOf(`outlook/${id}`)).stands[0];

/** Ends a stand, so that its ground is free for the next width; the stand-in lets stands lie on each other. */
async function clearAway(id) {
  if (!isReal()) return;
  const { today } = await answerOf('today');
  await logEvents(server.url, [{ id: `gone-${id}`, date: today, kind: 'discarded', stand: id }]);
}

/** The page, with nothing but the refusals that a test asks for in its console. */
async function open(hash, options = {}, preferences = {}) {
  const opened = await openPage(browser, server.url, options);
  opened.context.setDefaultTimeout(30_000);
  await opened.page.addInitScript((chosen) => {
    localStorage.setItem('sowtide.preferences', JSON.stringify(chosen));
  }, preferences);
  await opened.page.goto(`${server.url}/#/${hash}`);
  return opened;
}

const isRefusal = (fault) => /status of 4\d\d/.test(fault);

async function mustBeSound(page, faults) {
  const { violations } = await new AxeBuilder({ page }).analyze();
  assert.deepEqual(
    violations.map((each) => `${each.id}: ${each.nodes[0].html.slice(0, 150)}`),
    [],
  );
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true);
  assert.deepEqual(
    faults.filter((fault) => !isRefusal(fault)),
    [],
  );
}

/** The form, opened by keys as by the hand. */
async function openForm(page, title = 'Put in by hand…') {
  const summary = page.locator('main summary', { hasText: title });
  await summary.focus();
  await page.keyboard.press('Enter');
  const form = page.locator('main details form');
  await form.waitFor();
  return form;
}

const choose = (form, name) => form.getByRole('button', { name, exact: true }).click();

for (const width of kWidths) {
  describe(`a stand put in by hand at ${width} px`, () => {
    it('of bought plants, from today’s work, leads to its page', async () => {
      const before = (await answerOf('outlook')).stands.length;
      const { page, faults, context } = await open('today', { viewport: { width, height: 800 } });
      const form = await openForm(page);
      await form.getByLabel('Crop').selectOption(isReal() ? 'leek' : 'beet');
      await choose(form, 'bought as plants');
      await form.locator('[data-field=bed] select').selectOption(beds[0].id);
      if (isReal()) await form.getByLabel('Variety').selectOption('v1');
      await form.getByRole('button', { name: 'More: How many' }).click();
      assert.equal(await form.getByLabel('Set out on').inputValue(), (await answerOf('today')).today);
      await form.locator('summary').click();
      await form.getByRole('button', { name: 'More: Spacing' }).click();
      await mustBeSound(page, faults);
      await choose(form, 'Put it in');
      await page.waitForFunction(() => location.hash.startsWith('#/stand/'));
      await page.locator('h1', { hasText: beds[0].name }).waitFor();
      const { stands } = await answerOf('outlook');
      assert.equal(stands.length, before + 1);
      const made = stands.find((each) => page.url().endsWith(`/${each.id}`));
      assert.deepEqual(
        [made.bed, made.clumps, made.spacing_mm, made.state],
        [beds[0].id, 11, 100, 'growing'],
      );
      await page.getByText(/^plants set out /).waitFor();
      if (isReal()) {
        assert.equal(made.variety, 'v1');
        const [entry] = (await answerOf('events')).filter((event) => event.stand === made.id);
        assert.deepEqual([entry.kind, entry.text, entry.count], ['set-out', 'bought', 11]);
        await page.locator('summary', { hasText: 'Logbook of this stand' }).click();
        await page.getByText(/set out 11 bought$/).waitFor();
      }
      await mustBeSound(page, faults);
      await context.close();
    });

    it('shows beside its field what is wrong, with the focus there, and keeps what was filled in', async () => {
      const before = (await answerOf('outlook')).stands.length;
      const { page, faults, context } = await open('season', { viewport: { width, height: 800 } });
      const form = await openForm(page);
      await form.getByLabel('Crop').selectOption('carrot');
      for (let i = 0; i < 60; i += 1) await form.getByRole('button', { name: 'More: How many' }).click();
      await form.locator('summary').click();
      for (let i = 0; i < 24; i += 1) await form.getByRole('button', { name: 'More: Spacing' }).click();
      await choose(form, 'Put it in');
      const wrong = form.locator('[data-field=clumps] .warning');
      await wrong.waitFor();
      assert.ok(await page.evaluate(() => document.activeElement.closest('[data-field=clumps]') !== null));
      const described = await form.getByRole('group', { name: 'How many' }).getAttribute('aria-describedby');
      assert.equal(await wrong.getAttribute('id'), described);
      assert.equal(await form.getByLabel('Crop').inputValue(), 'carrot');
      if (isReal()) {
        await choose(form, 'bought as plants');
        await choose(form, 'Put it in');
        await form
          .locator('[data-field=tray] .warning', { hasText: 'does not bear to be set out' })
          .waitFor();
        assert.equal(await form.locator('.warning').count(), 1);
      }
      assert.equal((await answerOf('outlook')).stands.length, before);
      await mustBeSound(page, faults);
      await context.close();
    });

    it('raised in a tray, in German and inches, at a place of its own', async () => {
      const { page, faults, context } = await open(
        'today',
        { viewport: { width, height: 800 } },
        { language: 'de', units: 'us' },
      );
      const form = await openForm(page, 'Von Hand aufnehmen …');
      await form.getByLabel('Gemüse').selectOption('lettuce');
      await form.locator('[data-field=bed] select').selectOption(beds[1].id);
      await choose(form, 'in einer Platte vorgezogen');
      await form.getByLabel('Welche Platte').waitFor();
      await form.locator('summary').click();
      await form.getByLabel(/^Die Stelle im Beet selbst wählen/).check();
      await form.getByRole('button', { name: 'Mehr: Von, das Beet entlang' }).click();
      const from = form.getByRole('textbox', { name: /^Von, das Beet entlang/ });
      assert.equal(await from.inputValue(), '6 in');
      await mustBeSound(page, faults);
      await choose(form, 'Aufnehmen');
      await page.waitForFunction(() => location.hash.startsWith('#/stand/'));
      await page.getByText(/^gesät /).waitFor();
      const made = await standOf(page.url().split('/').at(-1));
      assert.equal(made.method, 'start-indoors');
      assert.ok(made.tray !== '');
      // Half a foot, told to the millimetre.
      assert.equal(Math.round(made.from_m * 1000), 152);
      await mustBeSound(page, faults);
      await context.close();
      await clearAway(made.id);
    });

    it('is put right where it stands elsewhere than was written down', async () => {
      const { stands } = await answerOf('outlook');
      const stand = stands.find((each) => each.method === 'start-indoors' && each.state === 'growing');
      const { page, faults, context } = await open(`stand/${stand.id}`, { viewport: { width, height: 800 } });
      const summary = page.locator('summary', { hasText: 'It stands elsewhere…' });
      await summary.click();
      const put = page.getByRole('button', { name: 'Put it right' });
      assert.equal(await put.isDisabled(), true);
      const other = beds.find((each) => each.id !== stand.bed && each.length_m >= 2);
      const part = page.locator('details', { has: summary });
      await part.locator('select').selectOption(other.id);
      await mustBeSound(page, faults);
      await put.click();
      await page.getByText(/^Put right: it stands in /).waitFor();
      assert.equal((await standOf(stand.id)).bed, other.id);
      await page.locator('h1', { hasText: other.name }).waitFor();
      await mustBeSound(page, faults);
      await context.close();
      await clearAway(stand.id);
    });
  });
}

describe('plants set out', () => {
  it('may be told to be bought, in place of a sowing that the crop bears, and are taken back', async (test) => {
    if (!isReal()) return test.skip('the stand-in folds no setting out');
    const { page, faults, context } = await open('stand/s1', { viewport: { width: 360, height: 800 } });
    const tick = page.getByLabel('The plants were bought');
    await tick.check();
    assert.equal(
      await page.getByRole('group', { name: 'Plants', exact: true }).getByRole('textbox').inputValue(),
      '4',
    );
    await mustBeSound(page, faults);
    await page.getByRole('button', { name: 'Log: set out' }).click();
    await page.getByText(/^✓ Logged: 4\s+set out, 20 May, bought/).waitFor();
    await page.locator('dd', { hasText: 'growing' }).waitFor();
    await page.locator('dd', { hasText: /^plants set out 20 May 2027$/ }).waitFor();
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await page.locator('dd', { hasText: 'planned' }).waitFor();
    const [entry, back] = (await answerOf('events')).filter(
      (event) => event.stand === 's1' || event.kind === 'corrected',
    );
    assert.deepEqual([entry.kind, entry.text, back.target], ['set-out', 'bought', entry.id]);
    await context.close();
  });

  it('are not offered of a crop that does not bear it', async (test) => {
    if (!isReal()) return test.skip('the stand-in knows no such crop');
    const { page, context } = await open('stand/s2');
    await page.waitForResponse((response) => response.url().endsWith('/api/windows'));
    await page.getByRole('heading', { name: 'What comes when' }).waitFor();
    assert.equal(await page.getByLabel('The plants were bought').count(), 0);
    await context.close();
  });

  it('of a tray may be told to be bought on the card of the work, and count by plants then', async () => {
    let made;
    if (isReal()) {
      // Five weeks from their sowing lettuces are ready to go out.
      const sown = { crop: 'lettuce', bed: 'b4', clumps: 4, tray: 't1', day: '2027-04-15' };
      const answer = await fetch(`${server.url}/api/stands`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(sown),
      });
      assert.equal(answer.status, 200);
      made = await answer.json();
    }
    const { page, faults, context } = await open('today', { viewport: { width: 360, height: 800 } });
    const { tasks } = await answerOf('today');
    const task = tasks.find((each) => each.log_event === 'set-out');
    assert.ok(task, 'something is to be set out on this day');
    const { clumps, plants_per_clump: perClump } = await standOf(task.stand);
    const card = cardOf(page, task);
    const field = card.getByRole('textbox', { name: 'Amount (set out)' });
    assert.equal(await field.inputValue(), String(clumps));
    await card.getByLabel('The plants were bought').check();
    assert.equal(await field.inputValue(), String(Math.round(clumps * perClump)));
    await mustBeSound(page, faults);
    await card.getByRole('button', { name: 'Log: set out' }).click();
    await page.getByText(/^✓ Logged: .* set out, bought$/).waitFor();
    await waitingAre(page, 0);
    const entry = (await answerOf('events')).findLast((event) => event.stand === task.stand);
    assert.deepEqual(
      [entry.kind, entry.text, entry.count],
      ['set-out', 'bought', Math.round(clumps * perClump)],
    );
    await context.close();
    if (made) await clearAway(made.stand);
  });
});

describe('a full bed', () => {
  it('makes what is only planned give way to what was sown, and says which; a mistake is taken back', async (test) => {
    if (!isReal()) return test.skip('the stand-in lets stands lie on each other');
    const { page, faults, context } = await open('season', { viewport: { width: 360, height: 800 } });
    const full = await fetch(`${server.url}/api/stands`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ crop: 'chard', bed: 'b3', clumps: 12, spacing_mm: 250, day: '2027-06-15' }),
    });
    assert.equal(full.status, 200);
    const form = await openForm(page);
    await form.getByLabel('Crop').selectOption('radish');
    await form.locator('[data-field=bed] select').selectOption('b3');
    await choose(form, 'Put it in');
    const status = page.locator('main [role=status]', { hasText: 'It is put in.' });
    await status
      .getByText(/^Put in by hand there and now without room: Chard, Full bed \(label s\d+\)\./)
      .waitFor();
    await mustBeSound(page, faults);
    const its = await status.getByRole('link', { name: 'Open its page' }).getAttribute('href');
    await status.getByRole('button', { name: 'Put in another' }).click();
    await page.getByRole('button', { name: 'Put it in' }).waitFor();
    await page.goto(`${server.url}/${its}`);
    await page.getByText('Put in by mistake…').click();
    const id = page.url().split('/').at(-1);
    await mustBeSound(page, faults);
    await page.getByRole('button', { name: 'Take it back' }).click();
    await page.waitForFunction(() => location.hash === '#/season');
    const { stands } = await answerOf('outlook');
    assert.equal(
      stands.some((stand) => stand.id === id),
      false,
    );
    await context.close();
  });

  it('says why a stand of which more was logged is not taken back, in German too', async (test) => {
    if (!isReal()) return test.skip('the stand-in keeps no such log');
    const send = (path, body) =>
      fetch(`${server.url}/api/${path}`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(body),
      }).then((answer) => answer.json());
    const { stand } = await send('stands', { crop: 'radish', bed: 'b4', clumps: 5 });
    await send('events', [{ id: 'seen', date: kDay, kind: 'counted', stand, count: 5 }]);
    const { page, faults, context } = await open(`stand/${stand}`, {}, { language: 'de' });
    await page.getByText('Aus Versehen aufgenommen …').click();
    await page.getByRole('button', { name: 'Zurücknehmen', exact: true }).first().click();
    await page
      .getByText(
        /^Nicht zurückgenommen: Von Satz s\d+ steht mehr im Gartenbuch, als dass er aufgenommen wurde: /,
      )
      .waitFor();
    await mustBeSound(page, faults);
    await context.close();
    await clearAway(stand);
  });

  it('of another width holds as many, and the page says how long they are there', async (test) => {
    if (!isReal()) return test.skip('the stand-in keeps lengths');
    const made = await fetch(`${server.url}/api/stands`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ crop: 'leek', bed: 'b4', clumps: 6, spacing_mm: 200, bought: true }),
    }).then((answer) => answer.json());
    const { page, context } = await open(`stand/${made.stand}`);
    await page.locator('dd', { hasText: /^over 20 weeks/ }).waitFor();
    const summary = page.locator('summary', { hasText: 'It stands elsewhere…' });
    await summary.click();
    const part = page.locator('details', { has: summary });
    await part.locator('select').selectOption('b3');
    // Three across in the bed of 0.6 m.
    assert.equal(made.from_m, 0);
    await part.getByText('0 m to 0.4 m').waitFor();
    await page.getByRole('button', { name: 'Put it right' }).click();
    await page.getByText(/^Put right: it stands in /).waitFor();
    const stand = await standOf(made.stand);
    assert.equal(Math.round((stand.to_m - stand.from_m) * 1000), 400);
    await context.close();
    await clearAway(made.stand);
  });
});

for (const width of kWidths) {
  describe(`setting up at ${width} px`, () => {
    it('takes a cool store and what grew before, and takes them away again', async () => {
      const { page, faults, context } = await open('setup', { viewport: { width, height: 800 } });
      if (!isReal()) {
        await fetch(`${server.url}/api/setup/beds`, {
          method: 'PUT',
          headers: { 'Content-Type': 'application/json' },
          body: JSON.stringify(beds),
        });
        await page.reload();
      }
      const store = page.getByLabel('We have a cellar, a clamp or a cool loft to store in');
      await store.check();
      await page.getByText('Saved.').waitFor();
      assert.equal((await answerOf('setup')).cool_store, true);
      await page.locator('summary', { hasText: 'What grew here before' }).click();
      const part = page.locator('details', { has: page.getByText('What grew here before') });
      await part.locator('.entry-row').getByLabel('Family').selectOption({ label: 'Peas and beans' });
      await part.getByRole('button', { name: 'Add what grew' }).click();
      const row = part.locator('li').last();
      await row.getByRole('button', { name: /^Less: Peas and beans, .*, To$/ }).click();
      await row.getByRole('button', { name: /^Less: Peas and beans, .*, Year$/ }).click();
      const pastNow = async () => (await answerOf('setup')).past;
      const year = Number((await answerOf('today')).today.slice(0, 4));
      for (let i = 0; i < 100 && (await pastNow())[0]?.year !== year - 2; i += 1)
        await page.waitForTimeout(50);
      const [entry] = await pastNow();
      assert.deepEqual([entry.bed, entry.from_m, entry.family], [beds[0].id, 0, 'Fabaceae']);
      assert.ok(Math.abs(entry.to_m - (beds[0].length_m - 0.1)) < 1e-6, String(entry.to_m));
      await mustBeSound(page, faults);
      await row.getByRole('button', { name: /^Remove: Peas and beans/ }).click();
      await part.getByText('Nothing is written down.').waitFor();
      await store.uncheck();
      for (let i = 0; i < 100 && (await answerOf('setup')).cool_store; i += 1) await page.waitForTimeout(50);
      const setup = await answerOf('setup');
      assert.deepEqual([setup.past, setup.cool_store], [[], false]);
      await context.close();
    });
  });
}
