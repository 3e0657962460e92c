// How each page looks, kept as a picture of a few kilobytes: shrunk so far that letters blur but a block that moved, went
// missing or changed its shade shows. The stand-in's made-up garden is drawn, so that a better model changes nothing here.
// After a change that is meant: SOWTIDE_UPDATE_SNAPSHOTS=1 node --test e2e/snapshots.test.mjs, and look at the pictures.

import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { after, before, describe, it } from 'node:test';
import { fileURLToPath } from 'node:url';
import { startMock } from '../mock/server.mjs';
import { kWidths, openPage, startBrowser } from './support.mjs';

const kDirectory = fileURLToPath(new URL('./snapshots/', import.meta.url));
const kPages = ['season', 'today', 'table', 'store', 'packets', 'plan', 'site', 'stand', 'setup'];
const kReadySelector = {
  season: '[data-key]',
  packets: '.chart li',
  site: '.sheets svg',
  stand: 'figure svg',
};
/** Parts that are asked for apart have come by then; nothing moves, motion is reduced. */
const kSettleMs = 700;
/** Pixels of the screen a pixel of the kept picture stands for. */
const kShrink = 8;
/** Grey levels of 255 by which a pixel must differ to count, and the share of such pixels that is too much. */
const kNoticed = 24;
const kMostNoticed = 0.02;

let server, browser, darkroom, stand;
before(async () => {
  server = await startMock('season');
  const { stands } = await (await fetch(`${server.url}/api/outlook`)).json();
  stand = stands.find((each) => each.state === 'growing');
  browser = await startBrowser();
  darkroom = await (await browser.newContext()).newPage();
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

const dataUrl = (png) => `data:image/png;base64,${png.toString('base64')}`;

/** A picture made smaller, as a PNG. */
async function shrunk(png) {
  const url = await darkroom.evaluate(
    async ([source, by]) => {
      const image = await createImageBitmap(await (await fetch(source)).blob());
      const canvas = document.createElement('canvas');
      canvas.width = Math.round(image.width / by);
      canvas.height = Math.round(image.height / by);
      const context = canvas.getContext('2d');
      context.imageSmoothingQuality = 'high';
      context.filter = 'grayscale(1)';
      context.drawImage(image, 0, 0, canvas.width, canvas.height);
      return canvas.toDataURL('image/png');
    },
    [dataUrl(png), kShrink],
  );
  return Buffer.from(url.split(',')[1], 'base64');
}

/** The share of pixels that differ noticeably; 1 for pictures of different sizes. */
function difference(before, now) {
  return darkroom.evaluate(
    async ([first, second, noticed]) => {
      const pixels = async (source) => {
        const image = await createImageBitmap(await (await fetch(source)).blob());
        const canvas = document.createElement('canvas');
        canvas.width = image.width;
        canvas.height = image.height;
        const context = canvas.getContext('2d');
        context.drawImage(image, 0, 0);
        return context.getImageData(0, 0, image.width, image.height);
      };
      const [a, b] = [await pixels(first), await pixels(second)];
      if (a.width !== b.width || a.height !== b.height) return 1;
      let count = 0;
      for (let i = 0; i < a.data.length; i += 4) if (Math.abs(a.data[i] - b.data[i]) > noticed) count += 1;
      return count / (a.data.length / 4);
    },
    [dataUrl(before), dataUrl(now), kNoticed],
  );
}

async function picture(name, width) {
  const { page, context } = await openPage(browser, server.url, {
    viewport: { width, height: 800 },
    colorScheme: 'light',
    reducedMotion: 'reduce',
  });
  await page.goto(`${server.url}/#/${name === 'stand' ? `stand/${stand.id}` : name}`);
  await page.waitForSelector(kReadySelector[name] ?? 'h1');
  await page.waitForFunction(
    () => !document.querySelector('main')?.textContent?.includes('Reading the garden'),
  );
  await page.waitForTimeout(kSettleMs);
  const small = await shrunk(await page.screenshot());
  await context.close();
  return small;
}

for (const width of kWidths) {
  describe(`at ${width} px`, () => {
    for (const name of kPages) {
      it(`the ${name} page looks as it did`, async () => {
        const file = `${kDirectory}${name}-${width}.png`;
        const now = await picture(name, width);
        if (process.env.SOWTIDE_UPDATE_SNAPSHOTS) {
          mkdirSync(kDirectory, { recursive: true });
          writeFileSync(file, now);
        }
        assert.ok(existsSync(file), `${file} is missing: take it with SOWTIDE_UPDATE_SNAPSHOTS=1`);
        const share = await difference(readFileSync(file), now);
        assert.ok(share <= kMostNoticed, `${(share * 100).toFixed(1)} % of the picture changed (${file})`);
      });
    }
  });
}

describe('the comparison', () => {
  it('tells two pages apart', async () => {
    const share = await difference(await picture('season', 1280), await picture('today', 1280));
    assert.ok(share > 2 * kMostNoticed, `only ${(share * 100).toFixed(1)} % differ`);
  });
});
