import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isQuiet, quietEndsMs, summaryDay } from '../../../core/notify/wall-clock.ts';
import { dayOf, minuteOfDay } from '../../../shared/zoned-time.ts';

const hourMs = 3_600_000;
const at = (text: string) => Date.parse(text);
const night = { fromMin: 22 * 60, toMin: 7 * 60 };
const noon = { fromMin: 12 * 60, toMin: 13 * 60 };
const small = { fromMin: 60, toMin: 90 };
/** Only an hour of the day is loud: from one to two. */
const nearlyAll = { fromMin: 120, toMin: 60 };
const late = { fromMin: 23 * 60, toMin: 60 };

describe('isQuiet() and quietEndsMs()', () => {
  const rows: [string, typeof night | null, string, string, boolean, string][] = [
    // what                                    quiet   zone             now                     quiet  until
    ['a minute before the night', night, 'UTC', '2031-06-01T21:59:59Z', false, '2031-06-01T21:59:59Z'],
    ['as the night begins', night, 'UTC', '2031-06-01T22:00:00Z', true, '2031-06-02T07:00:00Z'],
    ['at midnight', night, 'UTC', '2031-06-02T00:00:00Z', true, '2031-06-02T07:00:00Z'],
    ['a minute before it ends', night, 'UTC', '2031-06-02T06:59:30Z', true, '2031-06-02T07:00:00Z'],
    ['as it ends', night, 'UTC', '2031-06-02T07:00:00Z', false, '2031-06-02T07:00:00Z'],
    ['none preferred', null, 'UTC', '2031-06-02T03:00:00Z', false, '2031-06-02T03:00:00Z'],
    ['noon in Lisbon in summer', noon, 'Europe/Lisbon', '2031-06-01T11:00:00Z', true, '2031-06-01T12:00:00Z'],
    ['noon in Lisbon in winter', noon, 'Europe/Lisbon', '2031-01-01T11:00:00Z', false, '2031-01-01T11:00:00Z'],
    ['a zone of half hours', noon, 'Asia/Kolkata', '2031-06-01T06:30:00Z', true, '2031-06-01T07:30:00Z'],
    ['a zone of quarters', noon, 'Asia/Kathmandu', '2031-06-01T06:15:00Z', true, '2031-06-01T07:15:00Z'],
    // 30 March 2031: Lisbon goes from 01:00 to 02:00; the night is an hour shorter.
    ['the night clocks go forward', night, 'Europe/Lisbon', '2031-03-29T22:00:00Z', true, '2031-03-30T06:00:00Z'],
    // Quiet from 01:00 to 01:30 does not exist that night.
    ['a quiet that the clocks skip', small, 'Europe/Lisbon', '2031-03-30T01:00:00Z', false, '2031-03-30T01:00:00Z'],
    // 26 October 2031: Lisbon goes from 02:00 back to 01:00; the night is an hour longer.
    ['the night clocks go back', night, 'Europe/Lisbon', '2031-10-25T21:00:00Z', true, '2031-10-26T07:00:00Z'],
    ['a quiet that comes twice, first', small, 'Europe/Lisbon', '2031-10-26T00:00:00Z', true, '2031-10-26T00:30:00Z'],
    [
      'a quiet that comes twice, between',
      small,
      'Europe/Lisbon',
      '2031-10-26T00:45:00Z',
      false,
      '2031-10-26T00:45:00Z',
    ],
    // The only loud hour of the day is skipped: the quiet goes on to the next day's.
    ['the loud hour skipped', nearlyAll, 'Europe/Lisbon', '2031-03-29T02:00:00Z', true, '2031-03-31T00:00:00Z'],
    ['the loud hour come twice', nearlyAll, 'Europe/Lisbon', '2031-10-25T01:00:00Z', true, '2031-10-26T00:00:00Z'],
    [
      'within the loud hour come again',
      nearlyAll,
      'Europe/Lisbon',
      '2031-10-26T01:59:00Z',
      false,
      '2031-10-26T01:59:00Z',
    ],
    [
      'after the loud hour come twice',
      nearlyAll,
      'Europe/Lisbon',
      '2031-10-26T02:00:00Z',
      true,
      '2031-10-27T01:00:00Z',
    ],
    // The first minute of the quiet is skipped with the last hour of the day.
    ['its beginning skipped', late, 'America/Nuuk', '2031-03-30T01:00:00Z', true, '2031-03-30T02:00:00Z'],
    ['its beginning come twice', late, 'America/Nuuk', '2031-10-26T00:00:00Z', true, '2031-10-26T03:00:00Z'],
    ['its end skipped', late, 'America/Santiago', '2031-09-07T03:30:00Z', true, '2031-09-07T04:00:00Z'],
    // Lord Howe moves by half an hour.
    ['half an hour forward', night, 'Australia/Lord_Howe', '2031-10-04T11:30:00Z', true, '2031-10-04T20:00:00Z'],
    ['half an hour back', night, 'Australia/Lord_Howe', '2031-04-05T11:00:00Z', true, '2031-04-05T20:30:00Z'],
    ['a quiet that comes twice, again', small, 'Europe/Lisbon', '2031-10-26T01:00:00Z', true, '2031-10-26T01:30:00Z'],
  ];
  for (const [what, quiet, zone, now, expected, until] of rows) {
    test(`${what} (${zone}, ${now}): ${expected ? `quiet until ${until}` : 'not quiet'}`, () => {
      expect(isQuiet(quiet, at(now), zone)).toBe(expected);
      expect(new Date(quietEndsMs(quiet, at(now), zone)).toISOString()).toBe(new Date(at(until)).toISOString());
    });
  }

  const minute = fc.integer({ min: 0, max: 1439 });
  const zone = fc.constantFrom('UTC', 'Europe/Lisbon', 'America/St_Johns', 'Australia/Lord_Howe', 'Pacific/Apia');
  const instant = fc.integer({ min: at('2029-01-01T00:00:00Z'), max: at('2033-01-01T00:00:00Z') });
  test('end where it is not quiet, and everything before the end is quiet', () => {
    fc.assert(
      fc.property(minute, minute, zone, instant, (fromMin, toMin, timeZone, nowMs) => {
        const quiet = { fromMin, toMin };
        const endMs = quietEndsMs(quiet, nowMs, timeZone);
        expect(isQuiet(quiet, endMs, timeZone)).toBe(false);
        if (!isQuiet(quiet, nowMs, timeZone)) expect(endMs).toBe(nowMs);
        for (let ms = nowMs; ms < endMs; ms += 7 * 60_000) expect(isQuiet(quiet, ms, timeZone)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
});

test('minuteOfDay() and dayOf() tell what the clock on the wall shows', () => {
  expect(minuteOfDay(Date.UTC(2031, 5, 1, 6), 'Europe/Lisbon')).toBe(420);
  expect(dayOf(Date.UTC(2031, 5, 1, 23, 30), 'Europe/Lisbon')).toBe('2031-06-02');
  expect(minuteOfDay(-1, 'UTC')).toBe(1439);
});

describe('summaryDay()', () => {
  const rows: [string, number | null, string, string, string | undefined][] = [
    // what                                                    minute  zone             now                     the day that is due
    ['not preferred', null, 'Europe/Lisbon', '2031-06-01T06:00:00Z', undefined],
    ['before its minute', 420, 'Europe/Lisbon', '2031-06-01T05:59:59Z', undefined],
    ['at its minute', 420, 'Europe/Lisbon', '2031-06-01T06:00:00Z', '2031-06-01'],
    ['within six hours', 420, 'Europe/Lisbon', '2031-06-01T11:59:00Z', '2031-06-01'],
    ['after six hours', 420, 'Europe/Lisbon', '2031-06-01T12:00:00Z', undefined],
    ['within six hours, over midnight', 23 * 60, 'UTC', '2031-06-02T04:59:00Z', '2031-06-01'],
    ['after six hours, over midnight', 23 * 60, 'UTC', '2031-06-02T05:00:00Z', undefined],
    ['at midnight', 0, 'UTC', '2031-06-02T00:00:00Z', '2031-06-02'],
    // 30 March 2031, 23 hours: Lisbon goes from 01:00 to 02:00.
    ['before its minute is skipped', 90, 'Europe/Lisbon', '2031-03-30T00:59:00Z', undefined],
    ['its minute skipped', 90, 'Europe/Lisbon', '2031-03-30T01:00:00Z', '2031-03-30'],
    ['its minute after the skipped hour', 420, 'Europe/Lisbon', '2031-03-30T06:00:00Z', '2031-03-30'],
    ['before its minute after the skipped hour', 420, 'Europe/Lisbon', '2031-03-30T05:59:00Z', undefined],
    // Nuuk goes from 22:59 on Saturday to 00:00 on Sunday: the last hour of the day is skipped.
    ['before the last hour is skipped', 1410, 'America/Nuuk', '2031-03-30T00:59:00Z', undefined],
    ['its minute in a skipped last hour', 1410, 'America/Nuuk', '2031-03-30T01:00:00Z', '2031-03-29'],
    // Santiago goes from 23:59 to 01:00: the first hour of the day is skipped.
    ['its minute in a skipped first hour', 30, 'America/Santiago', '2031-09-07T04:00:00Z', '2031-09-07'],
    // 26 October 2031, 25 hours: Lisbon goes from 02:00 back to 01:00.
    ['its minute come once', 90, 'Europe/Lisbon', '2031-10-26T00:30:00Z', '2031-10-26'],
    ['its minute come twice: the same day', 90, 'Europe/Lisbon', '2031-10-26T01:30:00Z', '2031-10-26'],
    ['its minute after the hour that came twice', 420, 'Europe/Lisbon', '2031-10-26T07:00:00Z', '2031-10-26'],
    ['before that', 420, 'Europe/Lisbon', '2031-10-26T06:59:00Z', undefined],
    // Nuuk goes from 23:59 on Saturday back to 23:00 on Saturday.
    ['the last hour come twice: the same day', 1410, 'America/Nuuk', '2031-10-26T01:30:00Z', '2031-10-25'],
    ['midnight after it', 0, 'America/Nuuk', '2031-10-26T02:00:00Z', '2031-10-26'],
  ];
  for (const [what, minute, zone, now, day] of rows) {
    test(`${what} (${zone}, ${now}): ${day ?? 'not due'}`, () => {
      expect(summaryDay(minute, zone, at(now))).toBe(day);
    });
  }

  test('comes once a day, whatever the clocks do, when it is looked at every minute', () => {
    const changes = ['2031-03-30T01:00:00Z', '2031-10-26T01:00:00Z', '2031-09-07T04:00:00Z', '2031-04-06T03:00:00Z'];
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1439 }),
        fc.constantFrom(
          'UTC',
          'Europe/Lisbon',
          'America/Nuuk',
          'America/Santiago',
          'Atlantic/Azores',
          'Australia/Lord_Howe',
        ),
        fc.constantFrom(...changes),
        (minute, zone, change) => {
          const made: string[] = [];
          for (let ms = at(change) - 54 * hourMs; ms < at(change) + 54 * hourMs; ms += 60_000) {
            const day = summaryDay(minute, zone, ms);
            if (day !== undefined && !made.includes(day)) made.push(day);
          }
          const days = [-24, 0, 24].map((hours) => dayOf(at(change) + hours * hourMs, zone));
          expect(made).toEqual(expect.arrayContaining(days));
          expect(made).toEqual(made.toSorted());
        },
      ),
      { numRuns: 60 },
    );
  });
});
