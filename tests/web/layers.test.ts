/** Each sheet is a layer of its own, so that none wins over another by how long its selectors are. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { layerOf } from '../../web/layers.ts';
import { buildPages } from '../helpers/browser.ts';

test('layerOf() names a layer after the sheet, the shared sheets one together', () => {
  expect(layerOf('ui/style/forms.css')).toBe('base');
  expect(layerOf('ui/parts/tick.css')).toBe('parts.tick');
  expect(layerOf('charts/charts.css')).toBe('parts.charts');
  expect(layerOf('features/pile/warnings.css')).toBe('features.pile-warnings');
});

/** What stands outside of any block of a sheet, its first words only. */
function outermost(sheet: string): string[] {
  const found: string[] = [];
  let depth = 0;
  let prelude = '';
  for (const letter of sheet) {
    if (depth === 0 && (letter === '{' || letter === ';')) {
      found.push(prelude.trim());
      prelude = '';
    } else if (depth === 0 && letter !== '}') prelude += letter;
    if (letter === '{') depth += 1;
    if (letter === '}') depth -= 1;
  }
  return found;
}

test('the built pages have no rule outside of a layer, and the first sheet says their order', async () => {
  const pages = await buildPages();
  try {
    const assets = join(pages.dir, 'assets');
    const sheets = readdirSync(assets).filter((name) => name.endsWith('.css'));
    const first = sheets.find((name) => name.startsWith('index-')) ?? '';
    for (const name of sheets) {
      const outside = outermost(readFileSync(join(assets, name), 'utf8')).filter((one) => !one.startsWith('@layer '));
      expect(outside, name).toEqual([]);
    }
    const order =
      readFileSync(join(assets, first), 'utf8')
        .match(/@layer [\w,. -]+/g)
        ?.join(';') ?? '';
    expect(order.indexOf('base')).toBeLessThan(order.indexOf('parts'));
    expect(order.indexOf('parts')).toBeLessThan(order.indexOf('features'));
  } finally {
    await pages.remove();
  }
});
