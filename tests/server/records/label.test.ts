import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { labelSvg } from '../../../server/services/records/label.ts';
import { type Farm, openFarm } from '../journal/farm.ts';

let farm: Farm;
beforeAll(async () => {
  farm = await openFarm({ PUBLIC_URL: 'https://farm.example' });
  await farm.addPile('Cart <shed> & "barn"');
});
afterAll(() => farm.close());

const url = '/api/piles/cart-shed-barn/label';

test('GET /api/piles/:id/label tells what the code opens, and whether a phone could', async () => {
  expect((await farm.get(url)).json()).toEqual({
    address: 'https://farm.example/piles/cart-shed-barn/journal',
    opensElsewhere: true,
    says: 'The code opens the journal of this pile.',
    messages: { says: { code: 'label.opens', params: {} } },
  });
  expect((await farm.get('/api/piles/nope/label')).statusCode).toBe(404);
});

test('GET /api/piles/:id/label.svg is a picture in black and white that names the pile and can do nothing else', async () => {
  const answer = await farm.get(`${url}.svg`);
  expect(answer.headers).toMatchObject({
    'content-type': 'image/svg+xml; charset=utf-8',
    'content-security-policy': expect.stringContaining("default-src 'none'"),
  });
  expect(answer.body).toContain('Cart &lt;shed&gt; &amp; &quot;barn&quot;');
  expect(answer.body).not.toMatch(/<script|<shed>|on\w+=/);
  const { width, height } = await sharp(Buffer.from(answer.body)).metadata();
  expect((height ?? 0) / (width ?? 1)).toBeCloseTo(1.24, 1);
});

test('the code has its quiet zone of four modules and its three corner marks', async () => {
  const svg = await labelSvg('Bay', 'Saltmere Yard', 'https://farm.example/piles/bay/journal');
  const side = Number(/viewBox="0 0 (\d+) /.exec(svg)?.[1]);
  const { data, info } = await sharp(Buffer.from(svg), { density: 300 })
    .resize({ width: side * 8 })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const dark = (column: number, row: number) => (data[(row * 8 + 4) * info.width + column * 8 + 4] ?? 255) < 128;
  for (let i = 0; i < side; i++)
    for (const edge of [0, 3]) expect([dark(i, edge), dark(edge, i)]).toEqual([false, false]);
  // ISO/IEC 18004: a finder pattern is 7 modules of dark, light, dark x3, light, dark.
  const finder = [true, false, true, true, true, false, true];
  const across = (column: number, row: number) => finder.map((_, i) => dark(column + i, row));
  expect(across(4, 7)).toEqual(finder);
  expect(across(side - 11, 7)).toEqual(finder);
  expect(across(4, side - 8)).toEqual(finder);
});

test('without a public address the label says that it opens on this machine only', async () => {
  const other = await openFarm();
  await other.addPile('Bay');
  const label = (await other.get('/api/piles/bay/label')).json();
  expect(label).toMatchObject({ opensElsewhere: false, says: expect.stringContaining('BRANHEARTH_PUBLIC_URL') });
  await other.close();
});
