// The Table page: what it says of each week agrees with the answer of the server, and opens why.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { describe, it } from 'node:test';
import Ajv from 'ajv/dist/2020.js';
import { openPage, serverAndBrowser } from './support.mjs';

const running = serverAndBrowser();
const read = async (path) => (await fetch(`${running.server.url}${path}`)).json();

describe('table', () => {
  it('is answered in the form of its schema, for every wish', async () => {
    const schema = JSON.parse(
      readFileSync(new URL('../../docs/api/table.schema.json', import.meta.url), 'utf8'),
    );
    const validate = new Ajv().compile(schema);
    const table = await read('/api/table');
    assert.ok(validate(table), JSON.stringify(validate.errors));
    const { wants } = await read('/api/garden');
    assert.deepEqual(
      table.wants.map((each) => each.want),
      wants.map((each) => each.id),
    );
  });

  it('gives every week of every wish, and says where nothing is asked for', async () => {
    const { page, faults, context } = await openPage(running.browser, running.server.url);
    const { wants } = await read('/api/table');
    await page.goto(`${running.server.url}/#/table`);
    await page.waitForSelector('tbody tr');
    const rows = page.locator('tbody tr');
    assert.equal(await rows.count(), wants.length);
    for (const [i, { weeks }] of wants.entries()) {
      const cells = await rows.nth(i).locator('td').allTextContents();
      assert.equal(cells.length, weeks.length);
      // Beyond the plan no share is told, and from there on no week is planned.
      const isBeyond = (text) => text.includes('not planned yet');
      const beyond = cells.findIndex(isBeyond);
      if (beyond >= 0)
        assert.ok(cells.slice(beyond).every((text) => isBeyond(text) || text.includes('not asked for')));
      for (const [w, week] of weeks.entries()) {
        const share = Math.min(1, week.reaches.p50 / week.wanted);
        if (week.wanted === 0) assert.match(cells[w], /not asked for/);
        else if (isBeyond(cells[w])) assert.doesNotMatch(cells[w], /%/);
        else if (share === 1) assert.match(cells[w], /100%/);
        else assert.ok(!cells[w].includes('100%'), `${cells[w]} for ${JSON.stringify(week)}`);
      }
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('says of this week how much of it is left, and of the weeks beyond the plan that they are not planned', async () => {
    const { page, faults, context } = await openPage(running.browser, running.server.url, {
      serviceWorkers: 'block',
    });
    const table = await read('/api/table');
    const outlook = await read('/api/outlook');
    const { wants } = await read('/api/garden');
    const { crop } = wants[0];
    // The last harvest of the first wish lies half a year ahead, and the plan names nothing as short.
    const last = table.wants[0].weeks[26].week_start;
    for (const stand of outlook.stands)
      if (stand.crop === crop) {
        stand.weeks = stand.weeks.filter((week) => week.week_start < last);
        stand.weeks.push({ week_start: last, weight_g: { p10: 10, p50: 20, p90: 30 }, ready_probability: 1 });
      }
    await page.route('**/api/outlook', (route) => route.fulfill({ json: outlook }));
    await page.route('**/api/plan', (route) => route.fulfill({ json: null }));
    // Asked for in every week, so that there is one on either side of the plan's end.
    for (const want of table.wants) for (const week of want.weeks) week.wanted = Math.max(week.wanted, 1);
    await page.route('**/api/table', (route) => route.fulfill({ json: table }));
    await page.goto(`${running.server.url}/#/table`);
    await page.waitForSelector('tbody tr');
    await page.getByText(/^Weeks that are “not planned yet” lie beyond the plan/).waitFor();
    const head = await page.locator('thead th').nth(1).innerText();
    const day = new Date(table.today).getUTCDay();
    const left = day === 0 ? 1 : 8 - day;
    if (left < 7)
      assert.match(head, new RegExp(`this week, ${left === 1 ? 'its last day' : `${left} days left`}`));
    assert.doesNotMatch(await page.locator('thead th').nth(2).innerText(), /this week/);
    const cells = await page.locator('tbody tr').first().locator('td').allTextContents();
    const { weeks } = table.wants[0];
    assert.ok(
      weeks.some((week) => week.week_start > last),
      'the table reaches beyond the plan',
    );
    for (const [w, week] of weeks.entries())
      assert.equal(
        /not planned yet/.test(cells[w]),
        week.week_start > last,
        `${week.week_start}: ${cells[w]}`,
      );
    assert.deepEqual(
      faults.filter((fault) => !fault.includes('blocked by Playwright')),
      [],
    );
    await context.close();
  });

  it('opens why a week brings so much', async () => {
    const { page, context } = await openPage(running.browser, running.server.url, {
      viewport: { width: 360, height: 740 },
    });
    await page.goto(`${running.server.url}/#/table`);
    await page.locator('td .why').first().click();
    const sheet = page.locator('dialog[open]');
    await sheet.getByText('Out of store, mean of the years').waitFor();
    await sheet.getByText(/Then every wish takes its share/).waitFor();
    await sheet.getByText(/^Eight years in ten: /).waitFor();
    await context.close();
  });
});
