// Draws public/icon-*.png from public/icon.svg for phones that want pictures of a size.
//   node tools/icons.mjs
import { readFileSync } from 'node:fs';
import { startBrowser } from '../e2e/support.mjs';

const svg = readFileSync('public/icon.svg', 'utf8');
/** What a phone may cut away round a maskable icon is a tenth on each side (W3C, Web Application Manifest). */
const kinds = [
  { name: 'icon-192', size: 192, inset: 0 },
  { name: 'icon-512', size: 512, inset: 0 },
  { name: 'icon-maskable-512', size: 512, inset: 0.1 },
];
const browser = await startBrowser();
for (const { name, size, inset } of kinds) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const drawn = size * (1 - 2 * inset);
  await page.setContent(
    `<body style="margin:0;background:${inset ? '#fbf8f1' : 'transparent'}"><div style="width:${drawn}px;height:${drawn}px;margin:${size * inset}px">${svg.replace('<svg ', `<svg width="${drawn}" height="${drawn}" `)}</div>`,
  );
  await page.screenshot({ path: `public/${name}.png`, omitBackground: !inset });
  await page.close();
}
await browser.close();
