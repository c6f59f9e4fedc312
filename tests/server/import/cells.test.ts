import { describe, expect, test } from 'vitest';
import { cellNumber, isEmptyCell } from '../../../server/services/import/cell-number.ts';
import { cellTime, shownDateOrder, type TimeManner } from '../../../server/services/import/cell-time.ts';
import { guessMeaning } from '../../../server/services/import/column-guess.ts';
import type { Message } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';

const utc: TimeManner = { timeZone: 'UTC', dateOrder: undefined };
const lisbon: TimeManner = { timeZone: 'Europe/Lisbon', dateOrder: 'day-first' };
const iso = (found: number | Message) => (typeof found === 'number' ? new Date(found).toISOString() : found);
const faultOf = (found: number | Message) => (typeof found === 'number' ? String(found) : plainEnglish(found));

describe('cellTime()', () => {
  const rows: [string, TimeManner, string][] = [
    ['2031-04-05T06:07:08Z', utc, '2031-04-05T06:07:08.000Z'],
    ['2031-04-05T06:07+02:00', utc, '2031-04-05T04:07:00.000Z'],
    ['1932595200', utc, '2031-03-30T00:00:00.000Z'],
    ['1932595200000', utc, '2031-03-30T00:00:00.000Z'],
    ['2031-04-05 06:07', utc, '2031-04-05T06:07:00.000Z'],
    ['2031/4/5 6:07:08.5', utc, '2031-04-05T06:07:08.500Z'],
    ['2031-04-05', utc, '2031-04-05T00:00:00.000Z'],
    ['2031-07-05 12:00', lisbon, '2031-07-05T11:00:00.000Z'],
    ['2031-01-05 12:00', lisbon, '2031-01-05T12:00:00.000Z'],
    ['05/04/2031 06:07', lisbon, '2031-04-05T05:07:00.000Z'],
    ['05/04/2031 06:07', { ...utc, dateOrder: 'month-first' }, '2031-05-04T06:07:00.000Z'],
    ['5.4.31, 18:07', lisbon, '2031-04-05T17:07:00.000Z'],
    ['4/5/2031 12:07 AM', { ...utc, dateOrder: 'month-first' }, '2031-04-05T00:07:00.000Z'],
    ['4/5/2031 12:07 pm', { ...utc, dateOrder: 'month-first' }, '2031-04-05T12:07:00.000Z'],
    // The clocks of Lisbon skip 01:00 to 02:00 on 30 March 2031 and show it twice on 26 October 2031 (the first is taken).
    ['2031-10-26 01:30', lisbon, '2031-10-26T00:30:00.000Z'],
  ];
  for (const [text, manner, expected] of rows) {
    test(`reads ${text} in ${manner.timeZone} as ${expected}`, () =>
      expect(iso(cellTime(text, manner))).toBe(expected));
  }
  const refused: [string, TimeManner, RegExp][] = [
    ['2031-03-30 01:30', lisbon, /skipped/],
    ['30/02/2031 10:00', lisbon, /no day or hour that exists/],
    ['2031-04-05 25:00', utc, /no day or hour that exists/],
    ['05/04/2031', utc, /day or month comes first/],
    ['yesterday', utc, /is not a time/],
    ['', utc, /is not a time/],
  ];
  for (const [text, manner, why] of refused) {
    test(`refuses "${text}": ${why.source}`, () => expect(faultOf(cellTime(text, manner))).toMatch(why));
  }
});

test('shownDateOrder() needs a day above 12, or points between the numbers', () => {
  expect(shownDateOrder(['01/02/2031', '03/14/2031'])).toBe('month-first');
  expect(shownDateOrder(['01/02/2031', '14/03/2031'])).toBe('day-first');
  expect(shownDateOrder(['1.2.2031'])).toBe('day-first');
  expect(shownDateOrder(['01/02/2031', '2031-02-14'])).toBeUndefined();
});

describe('a cell of any length', () => {
  const long = 60_000;
  test('that is longer than a number or a time is refused by its length, and not looked at', () => {
    for (const sign of ['1', ' 1', '-', '.', '1 ']) {
      const cell = sign.repeat(long);
      expect(faultOf(cellNumber(cell, false))).toMatch(/^A number has at most 60 characters, and this cell has \d+\.$/);
      expect(faultOf(cellTime(cell, utc))).toMatch(/^A time has at most 60 characters, and this cell has \d+\.$/);
    }
  });

  test('is empty when there is nothing in it but spaces or hyphens', () => {
    expect([' '.repeat(long), '-'.repeat(long), ` ${'-'.repeat(long)} `].map(isEmptyCell)).toEqual([true, true, true]);
    expect(isEmptyCell(`${' '.repeat(long)}4${' '.repeat(long)}`)).toBe(false);
    expect(isEmptyCell(`${'-'.repeat(long)}4`)).toBe(false);
  });
});

describe('cellNumber()', () => {
  const rows: [string, boolean, number | RegExp][] = [
    ['45.25', false, 45.25],
    ['-3', false, -3],
    ['\u22123.5', false, -3.5],
    ['1,234.5', false, 1234.5],
    ['45,25', true, 45.25],
    ['1.234,5', true, 1234.5],
    ['1e3', false, 1000],
    ['45,25', false, /not a number/],
    ['45 °C', false, /not a number/],
    ['1,23,456', false, /not a number/],
    ['0x1F', false, /not a number/],
  ];
  for (const [text, comma, expected] of rows) {
    test(`${text} with a decimal ${comma ? 'comma' : 'point'}`, () => {
      if (expected instanceof RegExp) expect(faultOf(cellNumber(text, comma))).toMatch(expected);
      else expect(cellNumber(text, comma)).toBe(expected);
    });
  }

  test('knows how people write that there is nothing', () => {
    for (const cell of ['', ' ', '-', '--', 'n/a', 'NaN', 'null', undefined]) expect(isEmptyCell(cell)).toBe(true);
    for (const cell of ['0', 'no', '-1']) expect(isEmptyCell(cell)).toBe(false);
  });
});

describe('guessMeaning()', () => {
  const value = (quantity: string, probe?: string, unit?: string) => ({
    as: 'value',
    quantity,
    ...(probe && { probe }),
    ...(unit && { unit }),
  });
  const rows: [string, object][] = [
    ['Time', { as: 'field', field: 'time' }],
    ['Measured at', { as: 'field', field: 'time' }],
    ['Temperature', value('temperature')],
    ['temp_F', value('temperature', undefined, 'F')],
    ['Core temperature (°C)', value('temperature', 'core', 'C')],
    ['Heap 2 core °F', value('temperature', 'heap-2-core', 'F')],
    ['base', value('temperature', 'base')],
    ['RH %', value('humidity')],
    ['air relative humidity', value('humidity', 'air')],
    ['VWC', value('moisture')],
    ['CO2 (ppm)', value('co2')],
    ['CO2 (%)', value('co2', undefined, '%')],
    ['Shed CO2 %', value('co2', 'shed', '%')],
    ['Battery mV', value('battery', undefined, 'mV')],
    ['Operator’s mood', { as: 'ignored' }],
    ['toString', { as: 'ignored' }],
  ];
  for (const [heading, meaning] of rows)
    test(heading, () => expect(guessMeaning(heading, 'readings')).toEqual(meaning));

  test('entries know the headings of our own export', () => {
    expect(guessMeaning('amountL', 'entries')).toEqual({ as: 'field', field: 'amountL' });
    expect(guessMeaning('says', 'entries')).toEqual({ as: 'ignored' });
  });
});
