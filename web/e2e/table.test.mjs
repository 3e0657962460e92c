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
      for (const [w, week] of weeks.entries()) {
        const share = Math.min(1, week.reaches.p50 / week.wanted);
        if (week.wanted === 0) assert.match(cells[w], /not asked for/);
        else if (share === 1) assert.match(cells[w], /100%/);
        else assert.ok(!cells[w].includes('100%'), `${cells[w]} for ${JSON.stringify(week)}`);
      }
    }
    assert.deepEqual(faults, []);
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
