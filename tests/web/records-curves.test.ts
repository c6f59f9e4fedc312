/**
 * The curves of a record: what holds them, where a line breaks, where a name stands.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { frameOf, linePath, spread } from '../../web/src/features/records/record-curves.tsx';

const hour = 3_600_000;
const startMs = Date.parse('2031-06-01T00:00:00Z');
const point = (hours: number, mean: number) => ({
  at: new Date(startMs + hours * hour).toISOString(),
  min: mean - 1,
  mean,
  max: mean + 1,
});

test('the frame holds every bucket, in tens of degrees', () =>
  expect(frameOf([{ position: 'core', points: [point(0, 18), point(10, 47.2)] }], [])).toEqual({
    fromMs: startMs,
    toMs: startMs + 10 * hour,
    lowC: 10,
    highC: 50,
  }));
test('one bucket still has a frame with a height', () => {
  const frame = frameOf([{ position: 'core', points: [{ ...point(0, 20), min: 20, max: 20 }] }], []);
  expect(frame && frame.highC > frame.lowC && frame.toMs > frame.fromMs).toBe(true);
});
test('points measured by hand are held too, with a curve or alone', () => {
  const byHand = [{ position: 'core' as const, at: point(20, 0).at, temperatureC: 61, entryId: 'e1' }];
  expect(frameOf([{ position: 'core', points: [point(0, 18)] }], byHand)).toMatchObject({
    toMs: Date.parse(point(20, 0).at),
    highC: 70,
  });
  expect(frameOf([], byHand)).toMatchObject({ lowC: 60, highC: 70 });
});

test('without readings there is none', () => expect(frameOf([{ position: 'core', points: [] }], [])).toBeUndefined());

test('a line is broken where more than three buckets are missing, and only there', () => {
  const path = linePath(
    [point(0, 1), point(1, 2), point(4, 3), point(8, 4)],
    hour,
    (ms) => (ms - startMs) / hour,
    (c) => c,
  );
  expect(path).toBe('M0.0 1.0L1.0 2.0L4.0 3.0M8.0 4.0');
});

test('names stand apart, in the order of their lines', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 6 }), (at) => {
      const order = at.map((_, index) => index).sort((one, other) => (at[one] ?? 0) - (at[other] ?? 0));
      const places = order.map((index) => spread(at, 14)[index] ?? 0);
      for (let index = 1; index < places.length; index++) {
        expect((places[index] ?? 0) - (places[index - 1] ?? 0)).toBeGreaterThanOrEqual(14 - 1e-9);
      }
    }),
    { seed: 16, numRuns: 100 },
  );
});
