/** Draws `icon.png`, which a package needs, from `icon.svg`: `node client/media/draw-icon.mjs`. */
import * as fs from 'node:fs';
import { openBrowser } from '../../tests/editor/host/browser.mjs';

const svg = fs.readFileSync(new URL('icon.svg', import.meta.url), 'utf8');
const browser = await openBrowser();
const page = await browser.newPage({ viewport: { width: 256, height: 256 } });
await page.setContent(`<style>body { margin: 0 } svg { display: block }</style>${svg}`);
await page.screenshot({ path: new URL('icon.png', import.meta.url).pathname, omitBackground: true });
await browser.close();
