// Every page at both widths, light and dark: no accessibility violations, no errors, nothing asked of other hosts,
// nothing wider than the screen.

import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import AxeBuilder from '@axe-core/playwright';
import { isReal, kWidths, logEvents, openPage, startBrowser, startServer } from './support.mjs';

const kTags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const kPages = ['season', 'today', 'table', 'store', 'packets', 'plan', 'site', 'setup', 'stand'];
const kReadySelector = {
  season: '[data-key]',
  packets: '.chart li',
  site: '.sheets svg',
  setup: 'main section',
  stand: 'dl',
};

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
      it('the settings menu closes by a tap beside it, by Escape, and with the page', async () => {
        const { page, faults, context } = await openPage(browser, server.url, {
          viewport: { width, height: 800 },
          colorScheme,
        });
        await visit(page, 'today');
        const menu = page.locator('header details');
        const isOpen = () => menu.evaluate((each) => each.open);
        const closed = () => page.locator('header details:not([open])').waitFor();
        const open = () => menu.locator('summary').click();
        await open();
        assert.equal(await isOpen(), true);
        await page.getByRole('button', { name: 'Metric' }).click();
        assert.equal(await isOpen(), true, 'a choice is made in it');
        await page.mouse.click(5, 790);
        await closed();
        await open();
        await page.keyboard.press('Escape');
        await closed();
        assert.equal(await page.evaluate(() => document.activeElement.tagName), 'SUMMARY');
        await open();
        await page.evaluate(() => (location.hash = '#/table'));
        await page.locator('h1', { hasText: 'Table' }).waitFor();
        await closed();
        assert.deepEqual(faults, []);
        await context.close();
      });
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

/** A plan that leaves nine wishes short in ten weeks each, as runs of five. */
function planOfShortWeeks(wants) {
  const shortages = [];
  for (const { id } of wants.slice(0, 9)) {
    for (let week = 0; week < 10; week += 1) {
      const start = new Date(Date.UTC(2027, 9, 4 + 7 * (week < 5 ? week : week + 3)));
      shortages.push({
        want: id,
        week_start: start.toISOString().slice(0, 10),
        grams: 120 + week,
        probability: 0.25 + week / 20,
      });
    }
  }
  return {
    objective: 10,
    bound: 9,
    gap: 0.1,
    status: 'rounds done',
    seconds: 5.8,
    stands: [],
    wanted_value: 40,
    unseen_objective: 10.4,
    bad_years_objective: 12.4,
    wants: wants.map(({ id }) => ({ want: id, wanted_g: 14000, supplied_g: 13000 })),
    shortages,
    notes: [],
    reasons: {},
    worths: [],
    changes: [],
  };
}

const noWider = (page) => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

describe('on a phone, in German with US measures', () => {
  const openGerman = async () => {
    const opened = await openPage(browser, server.url, { viewport: { width: 360, height: 740 } });
    await opened.page.addInitScript(() => {
      localStorage.setItem('sowtide.preferences', JSON.stringify({ language: 'de', units: 'us' }));
    });
    return opened;
  };

  it('no page is wider than the screen', async () => {
    const { page, context } = await openGerman();
    for (const name of kPages) {
      await visit(page, name);
      await page.waitForTimeout(300);
      assert.equal(await noWider(page), true, name);
    }
    await context.close();
  });

  it('a plan tells all its short weeks, in runs, on the width of the screen', async () => {
    const { page, context } = await openGerman();
    const { wants } = await (await fetch(`${server.url}/api/garden`)).json();
    const plan = planOfShortWeeks(wants);
    await page.route('**/api/plan', (route) => route.fulfill({ json: plan }));
    await visit(page, 'plan');
    const counts = page.locator('main .count');
    await counts.first().waitFor();
    const weeks = (await counts.allInnerTexts()).map((text) => Number.parseInt(text, 10));
    assert.equal(
      weeks.reduce((sum, each) => sum + each, 0),
      plan.shortages.length,
    );
    assert.ok(weeks.every((each) => each === 5));
    assert.equal(await noWider(page), true);
    await context.close();
  });

  it('says in German and in ounces what limits a plan', async () => {
    const { page, context } = await openGerman();
    const { wants, packets } = await (await fetch(`${server.url}/api/garden`)).json();
    const want = wants.find((each) => each.crop === 'carrot') ?? wants[0];
    const packet = packets.find((each) => each.crop === 'beet');
    const said = { want: 'Carrot', want_id: want.id, met_share: 0.45, wanted_g: 12000 };
    await page.route('**/api/plan', (route) =>
      route.fulfill({
        json: {
          ...planOfShortWeeks(wants),
          notes: [
            'Carrot: the plan gives 45 % of the 12 kg wanted; the garden has no bed.',
            'Carrot: the plan gives 45 % of the 12 kg wanted.',
            `The packet of Beet (${packet.id}) holds 300 seeds; the plan sows 392.`,
            'Old words.',
          ],
          notes_said: [
            [
              { key: 'want-short', values: said },
              { key: 'no-bed', values: {} },
            ],
            [{ key: 'want-short', values: said }],
            [
              {
                key: 'packet-too-small',
                values: { crop: 'beet', crop_name: 'Beet', packet: packet.id, seeds: 300, sown: 392 },
              },
            ],
          ],
          worths: [
            { what: 'a metre', said: [{ key: 'metre-in-sun', values: { width_m: 1.2 } }], servings: 3.25 },
          ],
          changes: ['Carrot s3: sown later.'],
          changes_said: [
            [
              {
                key: 'stand-changed',
                values: {
                  crop: 'carrot',
                  crop_name: 'Carrot',
                  stand: 's3',
                  days_later: 7,
                  bed: 'Tor',
                  bed_before: 'Zaun',
                },
              },
              { key: 'day-is-past', values: {} },
            ],
          ],
        },
      }),
    );
    await visit(page, 'plan');
    await page.getByText('Was sich geändert hat, und warum').click();
    await page
      .getByText('Möhre (s3): 7 Tage später gesät, in Tor statt Zaun; der Tag zum Säen ist vorbei.')
      .waitFor();
    await page.getByText(/^3,3 Portionen: ein Meter Beet in voller Sonne, .* breit$/).waitFor();
    await page.getByText('Zu wenig, denn der Garten hat kein Beet: Möhre.').waitFor();
    await page.getByText(/^Möhre: der Plan bringt 45\s% der gewünschten 26 lb\.$/).waitFor();
    // The person knows the packet by its variety and year, not by the id of the file.
    await page
      .getByText(`Die Tüte Rote Bete Rubycoil (${packet.packed_year}) enthält 300 Samen; der Plan sät 392.`)
      .waitFor();
    assert.equal(await page.getByText('Old words.').getAttribute('lang'), 'en');
    await context.close();
  });

  it('says in German why to pull or wait and what each packet is worth', async (test) => {
    if (!isReal()) return test.skip('the stand-in says no phrases');
    const { page, context } = await openGerman();
    await visit(page, 'stand');
    const reasons = page.locator('main .advice li');
    await reasons.first().waitFor();
    assert.match((await reasons.allInnerTexts()).join(' '), /Eine Pflanze wiegt jetzt|reif/);
    await visit(page, 'packets');
    assert.match(await page.locator('main').innerText(), /keimen heute|Jahre alt/);
    assert.equal(await page.locator('main [lang="en"]').count(), 0);
    await context.close();
  });
});

describe('a problem of the past', () => {
  for (const [name, path] of [
    ['packets', '/api/packets'],
    ['packets', '/api/nursery'],
    ['plan', '/api/plan'],
  ]) {
    it(`with ${path} goes from the page ${name} once the answer comes`, async () => {
      const { page, context } = await openPage(browser, server.url);
      const failing = (url) => url.pathname === path;
      await page.route(failing, (route) =>
        route.fulfill({
          status: 500,
          json: { error: { code: 'storage', what: 'the disk is full', remedy: '' } },
        }),
      );
      await page.goto(`${server.url}/#/${name}`);
      await page.getByText('the disk is full').first().waitFor();
      await page.unroute(failing);
      const { today } = await (await fetch(`${server.url}/api/today`)).json();
      const note = { id: `past-${path.slice(5)}`, date: today, kind: 'noted', stand: standId, text: 'rain' };
      const told = { id: `${note.id}-count`, date: today, kind: 'measured', stand: standId, grams: 30 };
      await logEvents(server.url, [note, told]);
      await page.getByText('the disk is full').first().waitFor({ state: 'detached' });
      await context.close();
    });
  }
});

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
