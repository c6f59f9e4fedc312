import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { ExpectedBand } from '../../../core/expect/band.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import { type Forecast, forecastCore, forecastH } from '../../../core/forecast/forecast.ts';
import { startRecord } from '../../../core/forecast/own-record.ts';
import type { PileNow } from '../../../core/forecast/pile-now.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { msPerHour } from '../../../shared/units.ts';
import { pileAt, setupOf, startMs } from '../helpers.ts';

/** A band whose members are given hour by hour. */
function bandOf(members: readonly ((hour: number) => number)[], steps = 120): ExpectedBand {
  const coreCentiC = new Int16Array(members.length * steps);
  members.forEach((curve, member) => {
    for (let hour = 0; hour < steps; hour += 1) coreCentiC[member * steps + hour] = Math.round(100 * curve(hour));
  });
  return {
    fromMs: 0,
    stepMs: msPerHour,
    p10C: [],
    p50C: [],
    p90C: [],
    origin: verbatim(''),
    members: { count: members.length, steps, firstHour: 0, coreCentiC },
  };
}

const flat = (): number => 30;
const steep = (hour: number): number => 20 + hour;
const gentle = (hour: number): number => 20 + 0.25 * hour;

function ahead(band: ExpectedBand, pile: PileNow): Forecast {
  const fan = forecastCore(band, pile, startRecord());
  if (fan === null) throw new Error('Nothing is foretold');
  return fan;
}

test('forecastCore() follows the member that behaved as the pile did', () => {
  const rising = ahead(
    bandOf([flat, steep, gentle]),
    pileAt(20, (hour) => 21 + hour),
  );
  // All weight is on the steep member; three quarters to all of what it rises is believed.
  expect(rising.p50C[11]).toBeGreaterThan(41 + 0.75 * 12);
  expect(rising.p50C[11]).toBeLessThan(41 + 12);
  const calm = ahead(
    bandOf([flat, steep, gentle]),
    pileAt(20, () => 30),
  );
  expect(calm.p50C[11]).toBeCloseTo(30, 0);
});

test('forecastCore() lays the rise of a member on what was seen, not its level', () => {
  const fan = ahead(
    bandOf([steep]),
    pileAt(20, (hour) => 18 + hour),
  );
  expect(fan.p50C[3]).toBeGreaterThan(40);
  expect(fan.p50C[3]).toBeLessThan(43);
});

test('forecastCore() begins where the core is now', () => {
  for (const curve of [flat, steep, gentle]) {
    const pile = pileAt(30, (hour) => curve(hour + 1));
    const fan = ahead(bandOf([flat, steep, gentle]), pile);
    expect(Math.abs((fan.p50C[0] ?? 0) - pile.nowC)).toBeLessThan(1.2);
    expect(fan.p10C[0]).toBeLessThan(pile.nowC + 1);
    expect(fan.p90C[0]).toBeGreaterThan(pile.nowC);
  }
});

test('forecastCore() tells when and how likely the limit is passed', () => {
  const fan = ahead(
    bandOf([steep, steep, flat]),
    pileAt(23, (hour) => 21 + hour),
  );
  // 44 °C now, one more each hour: above 50 in the seventh hour.
  expect([fan.overShare, fan.overInH]).toEqual([1, 7]);
  // The fan is less sure of it than the members are.
  expect(fan.overLikelihood).toBeGreaterThan(0.66);
  expect(fan.overLikelihood).toBeLessThan(1);
  const never = ahead(
    bandOf([flat]),
    pileAt(24, () => 30),
  );
  expect([never.overLikelihood, never.overShare, never.overInH]).toEqual([0, 0, null]);
});

test('forecastCore() does not let the fan fall far below the air without cause', () => {
  const fan = ahead(
    bandOf([() => 21]),
    pileAt(5, () => 21),
  );
  for (const lowC of fan.p10C) expect(lowC).toBeGreaterThanOrEqual(17);
});

test('forecastCore() takes the air that the band was worked out for', () => {
  const colder = { ...bandOf([flat]), airC: Array.from({ length: 120 }, (_, hour) => (hour > 20 ? 8 : 20)) };
  const shallow = pileAt(20, () => 30, { depthM: 0.1, shallow: true });
  expect(ahead(colder, shallow).p50C[11]).toBeLessThan((ahead(bandOf([flat]), shallow).p50C[11] ?? 0) - 1);
});

const real = expectedBand(setupOf(), [{ atMs: startMs, tempC: 22 }], startMs + 200 * msPerHour, { members: 60 });

const anyPile = fc
  .record({
    hour: fc.integer({ min: 0, max: 140 }),
    start: fc.double({ min: -5, max: 60, noNaN: true }),
    steps: fc.array(fc.double({ min: -2.5, max: 2.5, noNaN: true }), { minLength: 141, maxLength: 141 }),
    gaps: fc.array(fc.boolean(), { minLength: 141, maxLength: 141 }),
    airC: fc.double({ min: -10, max: 40, noNaN: true }),
    depthM: fc.double({ min: 0.02, max: 3, noNaN: true }),
    soil: fc.boolean(),
    quietH: fc.oneof(fc.double({ min: 0, max: 200, noNaN: true }), fc.constant(Number.POSITIVE_INFINITY)),
  })
  .map(({ hour, start, steps, gaps, ...rest }) => {
    let core = start;
    const ends = steps.map((step) => {
      core = Math.min(85, Math.max(-10, core + step));
      return core;
    });
    const seen = (at: number): number | null => (gaps[at] && at !== hour ? null : (ends[at] ?? null));
    return pileAt(hour, seen, { ...rest, nowC: ends[hour] ?? 0, shallow: rest.depthM < 0.2 });
  });

test('forecastCore() of any pile, gaps or not, is 24 ordered hours that widen, all numbers, the same each time', () => {
  fc.assert(
    fc.property(anyPile, (pile) => {
      const fan = forecastCore(real, pile, startRecord());
      if (fan === null) return;
      expect([fan.p10C.length, fan.p50C.length, fan.p90C.length]).toEqual([forecastH, forecastH, forecastH]);
      let upC = 0;
      fan.p50C.forEach((middle, at) => {
        const [low, high] = [fan.p10C[at] ?? Number.NaN, fan.p90C[at] ?? Number.NaN];
        expect(low).toBeLessThanOrEqual(middle);
        expect(high).toBeGreaterThanOrEqual(middle);
        expect(high - middle).toBeGreaterThanOrEqual(upC - 0.1001); // rounded to tenths
        upC = high - middle;
      });
      expect(fan.overLikelihood >= 0 && fan.overLikelihood <= 1).toBe(true);
      expect(forecastCore(real, pile, startRecord())).toEqual(fan);
    }),
    { numRuns: 300 },
  );
});

test('forecastCore() with half of the hours missing still looks ahead, and wider, not elsewhere', () => {
  const whole = pileAt(60, (hour) => real.p50C[hour + 1] ?? 0);
  const half = { ...whole, seen: (hour: number) => (hour % 2 === 1 ? null : whole.seen(hour)) };
  const [one, other] = [ahead(real, whole), ahead(real, half)];
  expect(Math.abs((one.p50C[11] ?? 0) - (other.p50C[11] ?? 0))).toBeLessThan(2);
});

test('forecastCore() says nothing without members, or beyond the grid', () => {
  const { members, ...bare } = bandOf([flat]);
  expect(members?.count).toBe(1);
  expect(
    forecastCore(
      bare,
      pileAt(20, () => 30),
      startRecord(),
    ),
  ).toBeNull();
  expect(
    forecastCore(
      bandOf([flat], 30),
      pileAt(25, () => 30),
      startRecord(),
    ),
  ).toBeNull();
});

test('forecastCore() is the same twice: nothing is carried over from another pile', () => {
  const band = bandOf([flat, steep, gentle]);
  const rising = pileAt(20, (hour) => 21 + hour);
  const once = ahead(band, rising);
  ahead(
    band,
    pileAt(20, () => 30),
  );
  expect(ahead(band, rising)).toEqual(once);
});
