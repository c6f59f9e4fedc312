import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bandAt } from '../../../core/expect/band.ts';
import { compactBand } from '../../../core/expect/compact-band.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import { blendFinished } from '../../../core/expect/finished.ts';
import { forecastCore } from '../../../core/forecast/forecast.ts';
import { startRecord } from '../../../core/forecast/own-record.ts';
import { msPerHour } from '../../../shared/units.ts';
import { pileAt, setupOf, startMs } from '../helpers.ts';

const worked = expectedBand(setupOf(), [], startMs + 200 * msPerHour, { members: 40 });
const finished = Array.from({ length: 4 }, (_, i) => ({ coreByHourC: new Array<number>(150).fill(30 + i) }));

test('compactBand() says what the band said, to a ten-thousandth of a degree, at every instant', () => {
  const kept = compactBand(worked);
  fc.assert(
    fc.property(fc.double({ min: -1, max: 201, noNaN: true }), (hour) => {
      const [was, is] = [worked, kept].map((band) => bandAt(band, startMs + hour * msPerHour));
      expect(is === undefined).toBe(was === undefined);
      for (const line of ['p10C', 'p50C', 'p90C'] as const)
        expect(Math.abs((is?.[line] ?? 0) - (was?.[line] ?? 0))).toBeLessThan(1e-4);
    }),
  );
});

test('compactBand() foretells what the band foretold', () => {
  const kept = compactBand(worked);
  for (let hour = 30; hour < 150; hour += 7) {
    const pile = pileAt(hour, (at) => (worked.p50C[at + 1] ?? 20) + Math.sin(at), {
      atMs: startMs + (hour + 1) * msPerHour,
    });
    const foretold = forecastCore(kept, pile, startRecord());
    expect(foretold).not.toBeNull();
    expect(foretold).toEqual(forecastCore(worked, pile, startRecord()));
  }
});

test('compactBand() keeps what was blended in, silence included, in one piece of memory', () => {
  const blended = blendFinished(worked, finished);
  const { sources, p50C, airC, members } = compactBand(blended);
  expect(sources?.ownBatches).toBe(4);
  expect(sources?.own.p50C[10]).toBe(31.5);
  expect(sources?.own.p50C[180]).toBeNaN();
  expect(sources?.model.p50C[10]).toBe(Math.fround(worked.p50C[10] ?? 0));
  const piece = p50C instanceof Float32Array ? p50C.buffer : null;
  expect(airC).toHaveProperty('buffer', piece);
  expect(members && 'packed' in members && members.packed.buffer).toBe(piece);
  expect(structuredClone(compactBand(blended))).toEqual(compactBand(blended)); // as it comes from the thread
});

test('compactBand() of a band without air or members has neither', () => {
  const { members: _, airC: __, ...bare } = worked;
  expect(Object.keys(compactBand(bare)).sort()).toEqual(Object.keys(bare).sort());
});
