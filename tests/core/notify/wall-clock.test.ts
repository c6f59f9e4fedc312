import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dayOf, isQuiet, minuteOfDay, quietEndsMs, summaryDue } from '../../../core/notify/wall-clock.ts';

const at = (text: string) => Date.parse(text);
const night = { fromMin: 22 * 60, toMin: 7 * 60 };
const noon = { fromMin: 12 * 60, toMin: 13 * 60 };
const small = { fromMin: 60, toMin: 90 };

describe('isQuiet() and quietEndsMs()', () => {
  const rows: [string, typeof night | null, string, string, boolean, string][] = [
    // what                                    quiet   zone             now                     quiet  until
    ['a minute before the night', night, 'UTC', '2031-06-01T21:59:59Z', false, '2031-06-01T21:59:59Z'],
    ['as the night begins', night, 'UTC', '2031-06-01T22:00:00Z', true, '2031-06-02T07:00:00Z'],
    ['at midnight', night, 'UTC', '2031-06-02T00:00:00Z', true, '2031-06-02T07:00:00Z'],
    ['a minute before it ends', night, 'UTC', '2031-06-02T06:59:30Z', true, '2031-06-02T07:00:00Z'],
    ['as it ends', night, 'UTC', '2031-06-02T07:00:00Z', false, '2031-06-02T07:00:00Z'],
    ['none wished', null, 'UTC', '2031-06-02T03:00:00Z', false, '2031-06-02T03:00:00Z'],
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

describe('summaryDue()', () => {
  const rows: [string, number | null, string | undefined, string, boolean][] = [
    ['before its minute', 420, undefined, '2031-06-01T05:59:59Z', false],
    ['at its minute', 420, undefined, '2031-06-01T06:00:00Z', true],
    ['at its minute, made today', 420, '2031-06-01', '2031-06-01T06:00:00Z', false],
    ['at its minute, made yesterday', 420, '2031-05-31', '2031-06-01T06:00:00Z', true],
    ['within six hours', 420, '2031-05-31', '2031-06-01T11:59:00Z', true],
    ['after six hours', 420, '2031-05-31', '2031-06-01T12:00:00Z', false],
    ['not wished', null, undefined, '2031-06-01T06:00:00Z', false],
    ['its minute skipped by the clocks', 90, '2031-03-29', '2031-03-30T01:00:00Z', true],
    ['its minute come twice, made the first time', 90, '2031-10-26', '2031-10-26T01:30:00Z', false],
  ];
  for (const [what, minute, last, now, due] of rows) {
    test(`${what}: ${due ? 'due' : 'not due'}`, () => {
      expect(summaryDue(minute, 'Europe/Lisbon', last, at(now))).toBe(due);
    });
  }
});
