import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PhotoCleanUp, unnamedForMs } from '../../../server/services/photos/photo-clean-up.ts';
import { photoLimits, photoSchema } from '../../../shared/contracts/journal.ts';
import { type Farm, openFarm } from './farm.ts';

let farm: Farm;
beforeAll(async () => {
  farm = await openFarm();
  await farm.addPile('Cart shed');
});
afterAll(() => farm.close());

/** An invented picture: 2400 x 1800, its left half straw and its right half ember, with a place written into it. */
async function picture(width = 2400, height = 1800) {
  const half = { width: width / 2, height, channels: 3, background: '#c9402a' } as const;
  const ember = await sharp({ create: half }).png().toBuffer();
  return sharp({ create: { ...half, width, background: '#d9b44a' } })
    .composite([{ input: ember, left: width / 2, top: 0 }])
    .withExif({ IFD0: { Make: 'Saltmere' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '38/1 30/1 0/1' } });
}
const put = (id: string, file: Buffer, type: string) => farm.send('PUT', `/api/photos/${id}`, file, type);

describe('PUT /api/photos/:id', () => {
  for (const [type, format] of [
    ['image/jpeg', 'jpeg'],
    ['image/png', 'png'],
    ['image/webp', 'webp'],
  ] as const) {
    test(`takes ${type}, draws it anew within ${photoLimits.keptSide} pixels, and its place is gone`, async () => {
      const file = await (await picture()).toFormat(format).toBuffer();
      expect((await sharp(file).metadata()).exif).toBeDefined();
      const answer = await put(`photo-${format}`, file, type);
      expect([answer.statusCode, photoSchema.parse(answer.json())]).toMatchObject([201, { width: 1600, height: 1200 }]);
      for (const [query, width] of [
        ['', 1600],
        ['?size=small', 320],
      ] as const) {
        const shown = await farm.get(`/api/photos/photo-${format}${query}`);
        const facts = await sharp(shown.rawPayload).metadata();
        expect([shown.headers['content-type'], facts.format, facts.width]).toEqual(['image/jpeg', 'jpeg', width]);
        expect([facts.exif, facts.xmp, facts.iptc, facts.icc]).toEqual([undefined, undefined, undefined, undefined]);
        expect(shown.rawPayload.includes('Saltmere')).toBe(false);
      }
    });
  }

  test('turns a picture upright before its note of how it was held is dropped', async () => {
    const file = await (await picture(400, 300)).withMetadata({ orientation: 6 }).jpeg().toBuffer();
    const answer = await put('photo-on-its-side', file, 'image/jpeg');
    expect(answer.json()).toMatchObject({ width: 300, height: 400 });
    const shown = await farm.get('/api/photos/photo-on-its-side');
    const top = await sharp(shown.rawPayload).extract({ left: 140, top: 20, width: 20, height: 20 }).stats();
    expect(top.dominant.g).toBeGreaterThan(120); // straw, which lay left, is on top
  });

  test('the same picture again is known, another under its id is refused', async () => {
    const file = await (await picture(200, 100)).jpeg().toBuffer();
    expect((await put('photo-again', file, 'image/jpeg')).statusCode).toBe(201);
    expect((await put('photo-again', file, 'image/jpeg')).statusCode).toBe(200);
    const other = await (await picture(100, 100)).jpeg().toBuffer();
    expect((await put('photo-again', other, 'image/jpeg')).statusCode).toBe(409);
  });

  test('refuses what is no picture, a damaged one, one too large, and other kinds', async () => {
    const whole = await (await picture()).jpeg().toBuffer();
    const huge = await sharp({ create: { width: 8000, height: 6300, channels: 3, background: '#fff' } })
      .png()
      .toBuffer();
    const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
    expect((await put('photo-bad-1', svg, 'image/png')).statusCode).toBe(422);
    expect((await put('photo-bad-2', whole.subarray(0, whole.length / 2), 'image/jpeg')).statusCode).toBe(422);
    const tooLarge = await put('photo-bad-3', huge, 'image/png');
    expect([tooLarge.statusCode, tooLarge.json()]).toMatchObject([
      422,
      { detail: expect.stringContaining('50 million') },
    ]);
    expect((await put('photo-bad-4', svg, 'image/svg+xml')).statusCode).toBe(415);
    const heavy = Buffer.alloc(photoLimits.bytes + 1);
    expect((await put('photo-bad-5', heavy, 'image/jpeg')).statusCode).toBe(413);
    expect((await farm.send('PUT', '/api/photos/photo-bad-6', { not: 'a picture' })).statusCode).toBe(415);
    for (const n of [1, 2, 3, 4, 5, 6]) expect((await farm.get(`/api/photos/photo-bad-${n}`)).statusCode).toBe(404);
  });

  test('leaves whole pictures only in the folder, and nothing beside it', async () => {
    const folder = join(farm.dataDir, 'photos');
    const names = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
    expect(names.every(({ name }) => /^[0-9a-f]{64}(-small)?\.jpg$/.test(name))).toBe(true);
    expect(names.length).toBeGreaterThan(4);
    expect(existsSync(`${folder}.part`) && readdirSync(`${folder}.part`)).toEqual([]);
  });
});

test('a photo is served so that it can do nothing but be looked at', async () => {
  const { headers } = await farm.get('/api/photos/photo-again');
  expect(headers).toMatchObject({
    'content-type': 'image/jpeg',
    'x-content-type-options': 'nosniff',
    'content-security-policy': "default-src 'none'; sandbox",
    'content-disposition': 'inline; filename="photo-again.jpg"',
    'cross-origin-resource-policy': 'same-origin',
  });
  expect(headers['cache-control']).toMatch(/^private/);
});

test('an entry carries the photos it names', async () => {
  const what = { kind: 'photo' };
  const answer = await farm.post('/api/piles/cart-shed/entries', { what, photoIds: ['photo-jpeg', 'photo-webp'] });
  expect([answer.statusCode, answer.json()]).toMatchObject([201, { photoIds: ['photo-jpeg', 'photo-webp'] }]);
});

describe('photos that no entry names', () => {
  test('are taken away after a week, with their pictures, and no others', async () => {
    const file = async (shade: string) =>
      sharp({ create: { width: 40, height: 30, channels: 3, background: shade } })
        .jpeg()
        .toBuffer();
    await put('photo-never-named', await file('#123456'), 'image/jpeg');
    await put('photo-named', await file('#654321'), 'image/jpeg');
    await put('photo-named-once', await file('#abcdef'), 'image/jpeg');
    await put('photo-same-as-named', await file('#654321'), 'image/jpeg');
    const note = { what: { kind: 'note' }, note: 'Its skin.' };
    await farm.post('/api/piles/cart-shed/entries', { ...note, photoIds: ['photo-named'] });
    const entry = (await farm.post('/api/piles/cart-shed/entries', { ...note, photoIds: ['photo-named-once'] })).json<{
      id: string;
      version: { id: string } | string;
    }>();
    await farm.post(`/api/entries/${entry.id}/withdrawal`, { replaces: entry.id, reason: 'a mistake' });
    const removed: string[] = [];
    const { journal } = farm.one.installation;
    const cleanUpAt = (afterMs: number) =>
      new PhotoCleanUp({
        clock: { nowMs: () => Date.now() + afterMs, speed: 1 },
        log: { info() {}, warn() {} },
        journal,
        photos: { remove: async (digests) => void removed.push(...digests) },
      }).step();
    await cleanUpAt(unnamedForMs - 60_000);
    expect((await farm.get('/api/photos/photo-never-named')).statusCode).toBe(200);
    while ((await cleanUpAt(unnamedForMs + 60_000)) > 0);
    const statuses = ['never-named', 'named', 'named-once', 'same-as-named'].map(
      async (name) => (await farm.get(`/api/photos/photo-${name}`)).statusCode,
    );
    expect(await Promise.all(statuses)).toEqual([404, 200, 200, 404]);
    const kept = await journal.photos.get('photo-named');
    expect(removed).not.toContain(kept?.digest); // another photo of the same picture is still named
    expect(removed.length).toBeGreaterThan(0);
  });
});
