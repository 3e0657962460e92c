// The Site page: what it says agrees with the answer of the server, in words and tables, by pointer and by keys.
// Only the real program knows a site; without it these tests are skipped.

import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import AxeBuilder from '@axe-core/playwright';
import Ajv from 'ajv/dist/2020.js';
import { readFileSync } from 'node:fs';
import { makeSite } from '../fixtures/site.mjs';
import { isReal, kWidths, openPage, startBrowser, startServer } from './support.mjs';

const kTags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const kSchema = new URL('../../docs/api/site.schema.json', import.meta.url);

describe('site page', { skip: !isReal() && 'needs SOWTIDE_BIN' }, () => {
  let server, browser, site;
  before(async () => {
    server = await startServer();
    browser = await startBrowser();
    site = await (await fetch(`${server.url}/api/site`)).json();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });

  async function openSite(options = {}, preferences = { language: 'en' }) {
    const opened = await openPage(browser, server.url, options);
    await opened.page.addInitScript(
      (kept) => localStorage.setItem('sowtide.preferences', JSON.stringify(kept)),
      preferences,
    );
    await opened.page.goto(`${server.url}/#/site`);
    await opened.page.waitForSelector('main figure svg');
    return opened;
  }

  it('is answered as its schema says', () => {
    const validate = new Ajv({ allErrors: true }).compile(JSON.parse(readFileSync(kSchema, 'utf8')));
    assert.equal(validate(site), true, JSON.stringify(validate.errors?.slice(0, 3)));
    for (const band of [site.air.tmin_c, site.air.tmax_c, site.sun.radiation_mj_m2]) {
      for (const key of ['p10', 'p50', 'p90']) assert.equal(band[key].length, site.days);
    }
  });

  it('is answered once for each day and revision', async () => {
    const read = async () => (await fetch(`${server.url}/api/site`)).text();
    assert.equal(await read(), await read());
  });

  for (const width of kWidths) {
    for (const colorScheme of ['light', 'dark']) {
      it(`is accessible, quiet and no wider than the screen at ${width} px, ${colorScheme}`, async () => {
        const { page, faults, context } = await openSite({
          viewport: { width, height: 800 },
          colorScheme,
          reducedMotion: 'reduce',
        });
        for (const details of await page.locator('main details').all())
          await details.evaluate((each) => {
            each.open = true;
          });
        const { violations } = await new AxeBuilder({ page }).withTags(kTags).analyze();
        assert.deepEqual(
          violations.map((each) => `${each.id}: ${each.nodes[0].html.slice(0, 160)}`),
          [],
        );
        assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
        const text = await page.locator('main').innerText();
        assert.doesNotMatch(text, /NaN|undefined|null|Infinity/);
        assert.deepEqual(faults, []);
        await context.close();
      });
    }
  }

  it('gives every picture a name with its numbers, and a table', async () => {
    const { page, context } = await openSite();
    const names = await page
      .locator('main svg[role=img]')
      .evaluateAll((all) => all.map((each) => each.getAttribute('aria-label')));
    assert.equal(names.length, 5);
    for (const name of names) assert.match(name, /\d/);
    assert.equal(await page.locator('main details table').count(), 5);
    await context.close();
  });

  it('moves the day shown in all pictures by keys', async () => {
    const { page, context } = await openSite();
    const sliders = page.locator('main input[type=range]');
    await sliders.first().focus();
    await page.keyboard.press('Home');
    const words = await page.locator('main figcaption').allInnerTexts();
    assert.equal(words.length, 4);
    for (const each of words) assert.match(each, /^1 Jan:/);
    const values = await sliders.evaluateAll((all) => all.map((each) => each.value));
    assert.equal(new Set(values).size, 1);
    await context.close();
  });

  it('says from when the soil is warm enough for the crop chosen, at each depth', async () => {
    const { page, context } = await openSite();
    const day = (text) =>
      new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' }).format(
        new Date(`${site.first.slice(0, 4)}-${text}T00:00:00Z`),
      );
    for (const id of ['bush-bean', 'spinach']) {
      const crop = site.crops.find((each) => each.id === id);
      await page.locator('main select').selectOption(id);
      for (const [i, warm] of crop.warm.entries()) {
        await page.getByRole('group', { name: 'Depth' }).getByRole('button').nth(i).click();
        // The second line is the way to why.
        const texts = await page.locator('.answer dd').allInnerTexts();
        const said = texts.map((text) => text.split('\n')[0]);
        const expected = [warm.half, warm.nine_of_ten].map((span) => {
          if (span === 'never') return 'never';
          return span === 'always' ? 'all year' : `${day(span.from)} to ${day(span.until)}`;
        });
        assert.deepEqual(said, expected, `${id} ${warm.depth_mm}`);
      }
    }
    await context.close();
  });

  it('speaks in degrees Fahrenheit and inches where these are chosen', async () => {
    const { page, context } = await openSite({}, { language: 'en', units: 'us' });
    const text = await page.locator('main').innerText();
    assert.match(text, /32 °F/);
    assert.match(text, /86 °F/);
    assert.match(text, /0\.8 in deep/);
    assert.doesNotMatch(text, /°C/);
    await context.close();
  });

  it('speaks German', async () => {
    const { page, context } = await openSite({ locale: 'de-DE' }, { language: 'de' });
    await page.getByRole('heading', { name: 'Boden und Aussaat' }).waitFor();
    assert.equal(await page.locator('nav a[aria-current=page]').innerText(), 'Ort');
    await context.close();
  });
});

describe('the site of the stand-in', () => {
  it('has the form of the program’s answer', () => {
    const validate = new Ajv().compile(JSON.parse(readFileSync(kSchema, 'utf8')));
    assert.equal(validate(makeSite('2027-06-12')), true, JSON.stringify(validate.errors?.slice(0, 3)));
  });
});
