/**
 * Readings as fast-check makes them.
 *
 * Few series, crowded times: duplicates, conflicts and late readings are the rule. Values are eighths, which binary
 * fractions hold exactly, so that sums are exact in any order and rollups can be compared without a tolerance.
 */
import fc from 'fast-check';
import type { Reading } from '../../../shared/reading.ts';
import type { SeriesRef } from '../../../shared/store/readings-store.ts';

export const site = 'saltmere-yard';
export const someSeries: readonly SeriesRef[] = [
  { site, probe: 'bran-core', quantity: 'temperature' },
  { site, probe: 'bran-core', quantity: 'humidity' },
  { site, probe: 'bran-top', quantity: 'temperature' },
  { site: 'saltmere-terrace', probe: 'bran-core', quantity: 'temperature' },
];

export const dayMs = 86_400_000;
export const beginMs = Date.UTC(2031, 2, 30);

/** A moment within some forty days, often shared, sometimes a hair beside an edge of a rollup. */
export const arbitraryTime: fc.Arbitrary<number> = fc
  .tuple(fc.integer({ min: 0, max: 40 * 24 * 6 }), fc.constantFrom(-1, 0, 0, 1, 1_000, 90_500))
  .map(([step, besideMs]) => beginMs + step * 600_000 + besideMs);

const arbitraryReading: fc.Arbitrary<Reading> = fc
  .record({
    series: fc.constantFrom(...someSeries),
    atMs: arbitraryTime,
    eighths: fc.integer({ min: -400, max: 800 }),
  })
  .map(({ series, atMs, eighths }) => ({ ...series, atMs, value: eighths / 8 }));

/** Batches in which some readings come a second time, as they do when an acknowledgement was lost. */
export const arbitraryBatches: fc.Arbitrary<Reading[][]> = fc
  .tuple(fc.array(fc.array(arbitraryReading, { maxLength: 30 }), { maxLength: 8 }), fc.infiniteStream(fc.nat(5)))
  .map(([batches, dice]) =>
    batches.map((batch, index) => {
      const again = dice.next().value === 0 ? (batches[index - 1] ?? []) : [];
      return [...batch, ...again, ...batch.slice(0, 3)];
    }),
  );

/** One or two readings at a time from many series, so that a round of flushing takes many steps while more comes in. */
export const arbitraryTrickle: fc.Arbitrary<Reading[][]> = fc.array(
  fc.array(
    fc
      .record({ series: fc.nat(9), atMs: arbitraryTime, eighths: fc.integer({ min: -400, max: 800 }) })
      .map(({ series, atMs, eighths }): Reading => ({ ...manySeries(series), atMs, value: eighths / 8 })),
    { minLength: 1, maxLength: 2 },
  ),
  { maxLength: 60 },
);

/** Some of them `someSeries`. */
function manySeries(index: number): SeriesRef {
  return someSeries[index] ?? { site, probe: `soil-${index}`, quantity: 'moisture' };
}

/** For properties that open files: a failure is told as found when making it smaller would outlast the test. */
export const bounded = { interruptAfterTimeLimit: 15_000 } as const;
