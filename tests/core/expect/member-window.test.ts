import fc from 'fast-check';
import { expect, test } from 'vitest';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import { membersFrom } from '../../../core/expect/member-window.ts';
import { lookedBackH } from '../../../core/forecast/alike.ts';
import { forecastCore } from '../../../core/forecast/forecast.ts';
import { startRecord } from '../../../core/forecast/own-record.ts';
import type { PileNow } from '../../../core/forecast/pile-now.ts';
import { msPerHour } from '../../../shared/units.ts';
import { pileAt, setupOf, startMs } from '../helpers.ts';

const hours = 200;
const band = expectedBand(setupOf(), [], startMs + hours * msPerHour, { members: 40 });

function pileOf(hour: number, shallow: boolean): PileNow {
  return pileAt(hour, (at) => (band.p50C[at + 1] ?? 20) + 2 * Math.sin(at), {
    atMs: startMs + (hour + 1) * msPerHour,
    depthM: shallow ? 0.12 : 0.3,
    shallow,
  });
}

test('membersFrom() keeps what forecasts look at: from that hour on they are the same to the last digit', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 150 }),
      fc.integer({ min: 0, max: 20 }),
      fc.boolean(),
      (from, later, shallow) => {
        const pile = pileOf(from + later, shallow);
        const shorter = membersFrom(band, from - lookedBackH);
        expect(forecastCore(shorter, pile, startRecord())).toEqual(forecastCore(band, pile, startRecord()));
      },
    ),
    { numRuns: 60 },
  );
});

test('membersFrom() leaves the band itself as it is, and cuts the hours before', () => {
  const shorter = membersFrom(band, 150.7);
  expect({ ...shorter, members: null }).toEqual({ ...band, members: null });
  expect(shorter.members).toMatchObject({ count: 40, firstHour: 150, steps: hours + 1 - 150 });
  expect(shorter.members?.coreCentiC[0]).toBe(band.members?.coreCentiC[150]);
  expect(membersFrom(shorter, 160).members?.coreCentiC[0]).toBe(band.members?.coreCentiC[160]);
});

test('membersFrom() with nothing to cut, or nothing to keep, says so without a fault', () => {
  expect(membersFrom(band, -5)).toBe(band);
  expect(membersFrom(band, 0.9)).toBe(band);
  expect(membersFrom(band, 10_000).members?.steps).toBe(0);
  const { members: _, ...bare } = band;
  expect(membersFrom(bare, 50)).toBe(bare);
  expect(forecastCore(membersFrom(band, 10_000), pileOf(100, false), startRecord())).toBeNull();
});
