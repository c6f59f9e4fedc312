/**
 * An invented batch with everything in its record: lots, readings with a gap, entries of many alphabets, a correction,
 * a photo, an alarm, uses.
 */
import sharp from 'sharp';
import { type Farm, hourMs, site } from '../journal/farm.ts';

export interface RecordedBatch {
  readonly id: string;
  readonly startMs: number;
}

/** Core over hours: rest, a rise to 57, fall after the turn, a second hump, back to the air. */
export function coreC(hour: number): number {
  const first = 36 * Math.exp(-(((hour - 40) / 18) ** 2));
  const second = 14 * Math.exp(-(((hour - 90) / 16) ** 2));
  return 20 + first + second + (hour >= 44 && hour < 48 ? -9 : 0);
}

const airC = (hour: number): number => 18 + 4 * Math.sin(((hour - 9) / 24) * 2 * Math.PI);

export async function tellBatch(farm: Farm): Promise<RecordedBatch> {
  const startMs = Math.floor(Date.now() / hourMs) * hourMs - 170 * hourMs;
  const at = (hour: number) => new Date(startMs + hour * hourMs).toISOString();
  const wood = await farm.post('/api/lots', {
    name: 'Oak wood, March',
    massKg: 2,
    facts: {
      kind: 'starter',
      collectedPlace: 'oak wood above the terrace',
      collectedAt: at(-600),
      sugar: 'raw cane, equal parts',
    },
  });
  const bran = await farm.post('/api/lots', {
    name: 'Wheat bran',
    massKg: 200,
    facts: {
      kind: 'material',
      material: 'wheat-bran',
      supplier: 'Saltmere Mill',
      lotNumber: '41-B',
      organic: 'certified',
    },
  });
  const id = await farm.addPile('Cart shed', {
    startedAt: at(0),
    recipe: { massKg: 96, moistureFrac: 0.6, depthM: 0.3, material: 'wheat-bran' },
  });
  const lotOf = (answer: { json<T>(): T }) => answer.json<{ id: string }>().id;
  await farm.post(`/api/batches/${id}/inputs`, { lotId: lotOf(wood), massKg: 0.02 });
  await farm.post(`/api/batches/${id}/inputs`, { lotId: lotOf(bran), massKg: 40 });

  for (const [probe, position] of [
    ['heap-core', 'core'],
    ['heap-top', 'top'],
    ['yard-air', 'air'],
  ] as const) {
    const values = Array.from({ length: 170 * 4 }, (_, i): [number, number] => {
      const hour = i / 4;
      const value =
        position === 'air' ? airC(hour) : position === 'core' ? coreC(hour) : (coreC(hour) + 2 * airC(hour)) / 3;
      return [startMs + hour * hourMs, Math.round(value * 16) / 16];
    });
    // The core says nothing for five hours.
    const heard = values.filter(
      ([atMs]) => position !== 'core' || !(atMs > startMs + 120 * hourMs && atMs < startMs + 125 * hourMs),
    );
    await farm.commit(probe, 'temperature', heard);
    await farm.post(`/api/probes/${site}/${probe}/claim`, { pileId: 'cart-shed', position });
  }

  const picture = await sharp({ create: { width: 800, height: 600, channels: 3, background: '#d9c98a' } })
    .jpeg()
    .toBuffer();
  await farm.send('PUT', '/api/photos/photo-of-skin', picture, 'image/jpeg');
  const entry = (hour: number, what: object, more: object = {}) =>
    farm.post('/api/piles/cart-shed/entries', { what, at: at(hour), by: 'Ines', ...more });
  await entry(20, { kind: 'smell', smells: ['sweet', 'fermented'] });
  await entry(
    44,
    { kind: 'turned' },
    { note: 'Steam from the middle; cooler after. 한국어 메모, ελληνικά, кириллица, ≥ 50 °C.' },
  );
  const watered = await entry(45, { kind: 'watered', amountL: 60 });
  const { id: entryId, versionId } = watered.json<{ id: string; versionId: string }>();
  await farm.post(`/api/entries/${entryId}/corrections`, {
    replaces: versionId,
    reason: 'one nought too many',
    what: { kind: 'watered', amountL: 6 },
    by: 'Ines',
  });
  await entry(70, { kind: 'squeeze', feel: 'holds' });
  await entry(71, { kind: 'growth', colour: 'white', place: 'all-through' }, { photoIds: ['photo-of-skin'] });
  await entry(96, { kind: 'sample', wetG: 52, dryG: 23 });
  await entry(110, { kind: 'note' }, { note: '=HYPERLINK("http://example.org","look")' });
  await entry(130, { kind: 'turned' });
  await entry(
    160,
    { kind: 'readiness', smell: 'good', look: 'good', ready: true },
    { note: 'Smells of a wood after rain.' },
  );
  await farm.post(`/api/batches/${id}/uses`, {
    target: 'bed',
    place: 'Bed 3, upper terrace',
    massKg: 30,
    areaM2: 120,
    at: at(165),
  });
  return { id, startMs };
}
