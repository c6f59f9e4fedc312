import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { JudgeReading } from '../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../core/session/alarm-registry.ts';
import { PileWatch } from '../../server/pile/pile-watch.ts';
import type { BatchRecord } from '../../shared/store/journal.ts';

const minuteMs = 60_000;
const laidMs = Date.UTC(2031, 4, 1, 6);
const batch: BatchRecord = {
  id: 'b1',
  pileId: 'shed',
  stage: 'bran',
  startedAtMs: laidMs,
  endedAtMs: null,
  outcome: null,
  recipe: { material: 'wheat-bran', depthM: 0.3, cover: 'breathable' },
  limits: {},
};

/** Four days of a core and an air every 20 minutes: warming, a peak of 47 °C, cooling. */
const readings: JudgeReading[] = Array.from({ length: 4 * 72 }, (_, i) => {
  const atMs = laidMs + i * 20 * minuteMs;
  const coreC = 20 + 27 * Math.exp(-(((i - 130) / 70) ** 2));
  return [
    { position: 'core' as const, quantity: 'temperature' as const, value: coreC, atMs },
    { position: 'air' as const, quantity: 'temperature' as const, value: 15 + 5 * Math.sin(i / 11.5), atMs },
  ];
}).flat();
const endMs = laidMs + 4 * 86_400_000;

/** A watch whose committed readings grow as they are received. */
function watchOver(committed: JudgeReading[]): PileWatch {
  const pile = { id: 'shed', siteId: 'saltmere-yard', name: 'Shed', createdAtMs: laidMs };
  const registry = new AlarmRegistry('shed', [], () => 'a');
  return new PileWatch({
    pile,
    batch,
    acts: [],
    registry,
    async *readBack(fromMs, toMs) {
      const page = committed.filter(({ atMs }) => atMs >= fromMs && atMs < toMs);
      yield page.sort((a, b) => a.atMs - b.atMs);
    },
  });
}

async function judgeInOrderOfArrival(arrival: readonly JudgeReading[], lookEvery: number) {
  const committed: JudgeReading[] = [];
  const watch = watchOver(committed);
  for (const [i, reading] of arrival.entries()) {
    committed.push(reading);
    watch.receive(reading);
    if (i % lookEvery === 0) await watch.evaluate(endMs, false, Number.POSITIVE_INFINITY);
  }
  await watch.evaluate(endMs, false, Number.POSITIVE_INFINITY);
  return watch.assessment;
}

test('PileWatch judges the same when a burst of any length arrives after everything else, however often it is looked at between', async () => {
  const inOrder = await judgeInOrderOfArrival(readings, 1);
  expect(inOrder?.progressPct).toBeGreaterThan(10);
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 1, max: 400 }),
      fc.integer({ min: 1, max: 160 }),
      fc.integer({ min: 7, max: 90 }),
      async (first, length, lookEvery) => {
        // A burst that an outage held back: it arrives after everything else.
        const burst = readings.slice(first, first + length);
        const arrival = [...readings.slice(0, first), ...readings.slice(first + length), ...burst];
        expect(await judgeInOrderOfArrival(arrival, lookEvery)).toEqual(inOrder);
      },
    ),
    { numRuns: 25, seed: 20310501 },
  );
});

test('PileWatch takes a reading twice without a change', async () => {
  const twice = readings.flatMap((reading) => [reading, reading]);
  expect(await judgeInOrderOfArrival(twice, 50)).toEqual(await judgeInOrderOfArrival(readings, 50));
});

test('PileWatch goes on from its place as if it had never stopped', async () => {
  const whole = await judgeInOrderOfArrival(readings, 10);
  for (const share of [0.2, 0.5, 0.9]) {
    const half = Math.floor((readings.length * share) / 2) * 2;
    const committed = readings.slice(0, half);
    const first = watchOver(committed);
    for (const reading of committed) first.receive(reading);
    const { watch: place } = await first.evaluate(endMs, true, Number.POSITIVE_INFINITY);
    committed.push(...readings.slice(half));
    const second = watchOver(committed);
    await second.resume(place ?? undefined, endMs);
    await second.evaluate(endMs, false, Number.POSITIVE_INFINITY);
    expect(second.assessment).toEqual(whole);
  }
});

test('PileWatch says while an alarm waits to be raised, so that its place is kept oftener meanwhile', async () => {
  const calm = readings.slice(0, 80);
  const watch = watchOver([...calm]);
  for (const reading of calm) watch.receive(reading);
  let atMs = (calm.at(-1)?.atMs ?? 0) + minuteMs;
  await watch.evaluate(atMs, false, Number.POSITIVE_INFINITY);
  expect(watch.isAlarmWaiting).toBe(false);
  const waited: boolean[] = [];
  for (let raised = false; !raised && waited.length < 240; atMs += minuteMs) {
    const coreC = Math.min(58, 40 + waited.length / 4);
    watch.receive({ position: 'core', quantity: 'temperature', value: coreC, atMs });
    const { alarms } = await watch.evaluate(atMs, false, Number.POSITIVE_INFINITY);
    raised = alarms.some(({ kind }) => kind === 'overheating');
    waited.push(watch.isAlarmWaiting);
  }
  expect(waited.length).toBeLessThan(240);
  expect(waited.at(-2)).toBe(true);
});

test('PileWatch never steps its alarms back when the machine’s clock is set back', async () => {
  const watch = watchOver([...readings]);
  for (const reading of readings) watch.receive(reading);
  await watch.evaluate(endMs, false, Number.POSITIVE_INFINITY);
  await expect(watch.evaluate(endMs - 3_600_000, false, Number.POSITIVE_INFINITY)).resolves.toBeDefined();
});

test('PileWatch shows what it last said while it reads again, and begins again when the reading fails', async () => {
  const committed = [...readings];
  let failing = 0;
  const watch = new PileWatch({
    pile: { id: 'shed', siteId: 'saltmere-yard', name: 'Shed', createdAtMs: laidMs },
    batch,
    acts: [],
    registry: new AlarmRegistry('shed', [], () => 'a'),
    async *readBack(fromMs, toMs) {
      const page = committed.filter(({ atMs }) => atMs >= fromMs && atMs < toMs).sort((a, b) => a.atMs - b.atMs);
      yield page.slice(0, page.length / 2);
      during.push(watch.assessment);
      if (failing > 0) {
        failing -= 1;
        throw new Error('the store is away');
      }
      yield page.slice(page.length / 2);
    },
  });
  const during: unknown[] = [];
  expect(watch.assessment).toBeNull();
  await watch.resume(undefined, endMs);
  await watch.evaluate(endMs, false, Number.POSITIVE_INFINITY);
  const before = watch.assessment;
  during.length = 0;

  failing = 1;
  const late: JudgeReading = {
    position: 'core',
    quantity: 'temperature',
    value: 55,
    atMs: laidMs + 30 * 60 * minuteMs,
  };
  committed.push(late);
  watch.receive(late);
  await expect(watch.evaluate(endMs, false, Number.POSITIVE_INFINITY)).rejects.toThrow('away');
  expect(watch.assessment).toEqual(before);
  await watch.evaluate(endMs, false, Number.POSITIVE_INFINITY);
  expect(new Set(during.map((seen) => JSON.stringify(seen)))).toEqual(new Set([JSON.stringify(before)]));

  const fresh = watchOver(committed);
  await fresh.resume(undefined, endMs);
  await fresh.evaluate(endMs, false, Number.POSITIVE_INFINITY);
  expect(watch.assessment).toEqual(fresh.assessment);
});
