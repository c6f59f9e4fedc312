/** Against the reference implementation of Temporal (TC39 proposal, its own polyfill), which has zones and rule of its own. */
import { Temporal } from '@js-temporal/polyfill';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dayOf,
  instantOf,
  isSkipped,
  isTimeZone,
  minuteOfDay,
  monthOf,
  offsetMs,
  wallOf,
} from '../../shared/zoned-time.ts';

const hourMs = 3_600_000;
/** Half hours, quarters, a change of half an hour, a day left out, changes at midnight, both hemispheres. */
const zones = [
  'Europe/Lisbon',
  'Europe/Dublin',
  'Asia/Kolkata',
  'Asia/Kathmandu',
  'America/St_Johns',
  'America/Sao_Paulo',
  'America/New_York',
  'Australia/Lord_Howe',
  'Pacific/Auckland',
  'Pacific/Chatham',
  'Pacific/Apia',
  'Africa/Casablanca',
  'Asia/Beirut',
  'UTC',
];
const fromMs = Date.parse('1990-01-01T00:00:00Z');
const toMs = Date.parse('2036-01-01T00:00:00Z');

/** The instants at which the clocks of a zone change, after the reference. */
function changesOf(zone: string): number[] {
  const changes: number[] = [];
  let at: Temporal.ZonedDateTime | null = Temporal.Instant.fromEpochMilliseconds(fromMs).toZonedDateTimeISO(zone);
  while (at !== null && at.epochMilliseconds < toMs) {
    at = at.getTimeZoneTransition('next');
    if (at !== null && at.epochMilliseconds < toMs) changes.push(at.epochMilliseconds);
  }
  return changes;
}

/** Anywhere, and as often within two hours of a change of the clocks. */
const moments = fc
  .constantFrom(...zones.map((zone) => ({ zone, changes: changesOf(zone) })))
  .chain(({ zone, changes }) => {
    const anywhere = fc.integer({ min: fromMs, max: toMs });
    const near =
      changes.length === 0
        ? anywhere
        : fc
            .tuple(fc.constantFrom(...changes), fc.integer({ min: -2 * hourMs, max: 2 * hourMs }))
            .map(([at, by]) => at + by);
    return fc.record({ zone: fc.constant(zone), atMs: fc.oneof(anywhere, near) });
  });

const wallText = (wallMs: number) => new Date(wallMs).toISOString().slice(0, -1);
const run = { seed: 15, numRuns: 1_000 };

describe('an instant', () => {
  test('shows on the clocks of any zone what the reference says, also while they change', () => {
    fc.assert(
      fc.property(moments, ({ zone, atMs }) => {
        const wanted = Temporal.Instant.fromEpochMilliseconds(atMs).toZonedDateTimeISO(zone);
        expect(offsetMs(atMs, zone)).toBe(wanted.offsetNanoseconds / 1e6);
        expect(wallText(wallOf(atMs, zone))).toBe(wanted.toPlainDateTime().toString({ smallestUnit: 'millisecond' }));
        expect(dayOf(atMs, zone)).toBe(wanted.toPlainDate().toString());
        expect(minuteOfDay(atMs, zone)).toBe(wanted.hour * 60 + wanted.minute);
        expect(monthOf(atMs, zone)).toEqual({ year: wanted.year, month: wanted.month });
      }),
      run,
    );
  });
});

describe('a time on the clocks of a zone', () => {
  test('is the instant the reference gives ("compatible"), skipped, shown twice, or neither', () => {
    fc.assert(
      fc.property(moments, ({ zone, atMs: wallMs }) => {
        const wall = Temporal.PlainDateTime.from(wallText(wallMs));
        expect(instantOf(wallMs, zone)).toBe(wall.toZonedDateTime(zone).epochMilliseconds);
      }),
      run,
    );
  });

  test('is skipped where the reference finds two answers and neither shows it', () => {
    fc.assert(
      fc.property(moments, ({ zone, atMs }) => {
        // Near the wall time of a change, where the gap lies.
        for (const wallMs of [atMs, wallOf(atMs, zone), wallOf(atMs, zone) + hourMs / 2]) {
          const wall = Temporal.PlainDateTime.from(wallText(wallMs));
          const there = wall.toZonedDateTime(zone).toPlainDateTime().equals(wall);
          expect([zone, wallText(wallMs), isSkipped(wallMs, zone)]).toEqual([zone, wallText(wallMs), !there]);
        }
      }),
      run,
    );
  });

  const rows: [string, string, string, string, boolean][] = [
    // what                                   zone                    clocks              instant                skipped
    ['the minute before clocks go forward', 'Europe/Lisbon', '2031-03-30T00:59', '2031-03-30T00:59Z', false],
    ['the first that is skipped', 'Europe/Lisbon', '2031-03-30T01:00', '2031-03-30T01:00Z', true],
    ['the last that is skipped', 'Europe/Lisbon', '2031-03-30T01:59', '2031-03-30T01:59Z', true],
    ['the first after', 'Europe/Lisbon', '2031-03-30T02:00', '2031-03-30T01:00Z', false],
    ['the minute before the hour that comes twice', 'Europe/Lisbon', '2031-10-26T00:59', '2031-10-25T23:59Z', false],
    ['the first that comes twice', 'Europe/Lisbon', '2031-10-26T01:00', '2031-10-26T00:00Z', false],
    ['the last that comes twice', 'Europe/Lisbon', '2031-10-26T01:59', '2031-10-26T00:59Z', false],
    ['the first that comes once again', 'Europe/Lisbon', '2031-10-26T02:00', '2031-10-26T02:00Z', false],
    ['half an hour skipped', 'Australia/Lord_Howe', '2031-10-05T02:15', '2031-10-04T15:45Z', true],
    ['a midnight skipped', 'America/Sao_Paulo', '2017-10-15T00:30', '2017-10-15T03:30Z', true],
    ['a day left out', 'Pacific/Apia', '2011-12-30T12:00', '2011-12-30T22:00Z', true],
  ];
  test.each(rows)('%s', (_what, zone, clocks, instant, skipped) => {
    const wallMs = Date.parse(`${clocks}Z`);
    expect([new Date(instantOf(wallMs, zone)).toISOString(), isSkipped(wallMs, zone)]).toEqual([
      new Date(instant).toISOString(),
      skipped,
    ]);
  });
});

test('without a zone the machine’s own is meant', () => {
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const atMs = Date.parse('2031-07-01T12:30:00Z');
  expect(wallOf(atMs, undefined)).toBe(wallOf(atMs, own));
});

test('a zone is known by its name', () =>
  expect(['Europe/Lisbon', 'UTC', '', 'Europe/Nowhere'].map(isTimeZone)).toEqual([true, true, false, false]));
