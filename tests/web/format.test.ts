/**
 * Temperatures, ages and times as words.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plainReader } from '../../shared/messages/format.ts';
import { message } from '../../shared/messages/message.ts';
import { plainSpaces, render } from '../../shared/messages/render.ts';
import { sentenceIn } from '../../shared/messages/verbatim-text.ts';
import { ageWords, batchDay, dueSentence, lengthWords } from '../../web/src/ui/format/age.ts';
import {
  clockTime,
  dayAndTime,
  instantOfWall,
  nearTime,
  type Reader,
  wallOfInstant,
} from '../../web/src/ui/format/local-time.ts';
import { celsiusFrom, formatDifference, formatTemp, plainNumber, tempIn } from '../../web/src/ui/format/temperature.ts';

const nb = '\u00a0';

describe('formatTemp()', () => {
  const rows: [number, 'C' | 'F', string][] = [
    [47.25, 'C', `47.3${nb}°C`],
    [50, 'F', `122.0${nb}°F`],
    [-0.04, 'C', `0.0${nb}°C`],
    [-5.5, 'C', `−5.5${nb}°C`],
    [-40, 'F', `−40.0${nb}°F`],
  ];
  for (const [tempC, unit, words] of rows) {
    test(`${tempC} °C in ${unit} is "${words}"`, () => expect(formatTemp(tempC, unit)).toBe(words));
  }
  test('a difference has no offset of 32 and says its sign', () => {
    expect(formatDifference(5, 'F', 0)).toBe(`+9${nb}°F`);
    expect(formatDifference(-0.4, 'C')).toBe(`−0.4${nb}°C`);
    expect(formatDifference(0, 'C')).toBe(`0.0${nb}°C`);
  });
  test('celsiusFrom() undoes tempIn()', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 130, noNaN: true }),
        fc.constantFrom('C' as const, 'F' as const),
        (tempC, unit) => {
          expect(celsiusFrom(unit, tempIn(unit, tempC))).toBeCloseTo(tempC, 9);
        },
      ),
      { seed: 20311104 },
    );
  });
  test('plainNumber() never says minus nought', () => {
    expect(plainNumber(-0.001, 1)).toBe('0.0');
    expect(plainNumber(-0.06, 1)).toBe('−0.1');
  });
});

describe('sentenceIn(), for texts that have no code', () => {
  const rows: [string, string][] = [
    [
      'It is too hot: the core is at 53 °C, and 50 °C is the limit.',
      `It is too hot: the core is at 127${nb}°F, and 122${nb}°F is the limit.`,
    ],
    [
      'The core is at 53.4 °C, above the 50 °C at which to act.',
      `The core is at 128.1${nb}°F, above the 122${nb}°F at which to act.`,
    ],
    [
      'It is working well: the core is at 41 °C, 24 °C above the air.',
      `It is working well: the core is at 106${nb}°F, 43${nb}°F above the air.`,
    ],
    ['the core came back to within 5 °C of the air', `the core came back to within 9${nb}°F of the air`],
    ['The core rises by 1.5 °C an hour.', `The core rises by 2.7${nb}°F an hour.`],
    ['It cools 2 °C per hour', `It cools 4${nb}°F per hour`],
    ['comfortable at 35 to 45 °C', `comfortable at 95 to 113${nb}°F`],
    ['comfortable at 35-45 °C', `comfortable at 95-113${nb}°F`],
    ['the steps at 65, 71, 79, 88, 93 °C are those', `the steps at 149, 160, 174, 190, 199${nb}°F are those`],
    ['Present at 65 °C or above', `Present at 149${nb}°F or above`],
    ['It was at -5 °C', `It was at 23${nb}°F`],
    ['silent for 3 hours; it was at 44 °C then', `silent for 3 hours; it was at 111${nb}°F then`],
    ['Water 12 L over 3 days.', 'Water 12 L over 3 days.'],
    ['Moisture fell to 41 %.', `Moisture fell to 41${nb}%.`],
  ];
  for (const [inC, inF] of rows) {
    test(`"${inC}" in °F`, () => expect(sentenceIn('F', inC)).toBe(inF));
  }
  test('in °C only the space before a unit changes, so that no line breaks there', () => {
    expect(sentenceIn('C', 'at 41 °C, 60 % moist')).toBe(`at 41${nb}°C, 60${nb}% moist`);
  });
});

describe('ages', () => {
  const rows: [number, string][] = [
    [-3_000, 'just now'],
    [59_999, 'just now'],
    [60_000, '1 min ago'],
    [3_599_999, '59 min ago'],
    [3_600_000, '1 h ago'],
    [47.9 * 3_600_000, '47 h ago'],
    [48 * 3_600_000, '2 days ago'],
  ];
  for (const [ageMs, words] of rows) {
    test(`${ageMs} ms is "${words}"`, () => expect(ageWords(ageMs)).toBe(words));
  }
  test('a sentence and the facts beside it count an age alike', () => {
    const minute = 60_000;
    for (const ageMs of [
      -3_000,
      0,
      59_999,
      minute,
      1.9 * minute,
      59 * minute,
      60 * minute,
      89 * minute,
      2 * 60 * minute - 1,
      47.9 * 60 * minute,
      48 * 60 * minute,
      72 * 60 * minute - 1,
    ]) {
      const inFull = render(message('say.beside.core-measured-ago', { agoMs: ageMs }), plainReader(0));
      const said = /^its core was last measured (.*)$/.exec(plainSpaces(inFull))?.[1];
      const short = said?.replace(/ (minute|hour)s? /, (_all, unit: string) => (unit === 'minute' ? ' min ' : ' h '));
      expect(short, `${ageMs} ms`).toBe(ageWords(ageMs));
    }
  });
  test('what falls due is in, now or overdue', () => {
    expect(dueSentence(90 * 60_000, '16:30')).toBe('By 16:30 (in 1 h)');
    expect(dueSentence(30_000, '16:30')).toBe('Now');
    expect(dueSentence(-9 * 60_000, '16:30')).toBe('Now');
    expect(dueSentence(-10 * 60_000, '16:30')).toBe('This was due 10 min ago, at 16:30');
    expect(dueSentence(-22 * 86_400_000, 'Thu 7 Nov, 20:54')).toBe('This was due 22 days ago, at Thu 7 Nov, 20:54');
  });
  test('the day a batch is laid is day 1, and 24 h later day 2 begins', () => {
    expect(batchDay(0, 0)).toBe(1);
    expect(batchDay(0, 86_399_999)).toBe(1);
    expect(batchDay(0, 86_400_000)).toBe(2);
  });
  test('lengths count down as they count up', () => expect(lengthWords(-7_200_000)).toBe('2 h'));
});

describe('times on the wall clock', () => {
  const lisbon: Reader = { timeZone: 'Europe/Lisbon', hour12: false };
  const summerMs = Date.parse('2031-07-01T12:30:00Z');

  test('a site’s zone and a locale’s 12 hours are kept to', () => {
    expect(clockTime(summerMs, lisbon)).toBe('13:30');
    expect(clockTime(summerMs, { ...lisbon, hour12: true })).toBe('1:30 pm');
    expect(dayAndTime(summerMs, lisbon)).toBe('Tue 1 Jul, 13:30');
    // Of another year than it is, with that year: a diary goes back over seasons.
    const year = new Date(summerMs).getUTCFullYear();
    expect(dayAndTime(summerMs, { ...lisbon, yearNow: year })).toBe('Tue 1 Jul, 13:30');
    expect(dayAndTime(summerMs, { ...lisbon, yearNow: year + 1 })).toBe(`Tue 1 Jul ${year}, 13:30`);
  });
  test('of the same local day the time alone is told', () => {
    const noonMs = Date.parse('2031-07-01T12:00:00Z');
    expect(nearTime(summerMs, noonMs, lisbon)).toBe('13:30');
    // 23:30 UTC is half past midnight of the next day in Lisbon.
    expect(nearTime(Date.parse('2031-07-01T23:30:00Z'), noonMs, lisbon)).toBe('Wed 2 Jul, 00:30');
  });
  test('midnight is 00:00 and 12:00 am, not 24:00', () => {
    const midnightMs = Date.parse('2031-07-01T23:00:00Z');
    expect(clockTime(midnightMs, lisbon)).toBe('00:00');
    expect(clockTime(midnightMs, { ...lisbon, hour12: true })).toBe('12:00 am');
  });
  test('an instant survives the way through a form, in any zone and season, to the minute', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: Date.parse('2020-01-01'), max: Date.parse('2040-01-01') }),
        fc.constantFrom('Europe/Lisbon', 'Asia/Kathmandu', 'America/St_Johns', 'Pacific/Auckland', 'UTC'),
        (atMs, timeZone) => {
          const minuteMs = Math.floor(atMs / 60_000) * 60_000;
          const back = instantOfWall(wallOfInstant(atMs, timeZone), timeZone);
          // In the hour that the clocks repeat, the same wall time names two instants.
          const isRepeated = [-3_600_000, 3_600_000].some(
            (by) => wallOfInstant(minuteMs + by, timeZone) === wallOfInstant(minuteMs, timeZone),
          );
          if (!isRepeated) expect(back).toBe(minuteMs);
        },
      ),
      { seed: 7, numRuns: 200 },
    );
  });
  test('what is not a time is refused', () => {
    for (const text of ['', 'now', '2031-07-01', '2031-07-01 12:30'])
      expect(instantOfWall(text, 'UTC')).toBeUndefined();
  });
});
