import { expect, test } from 'vitest';
import { readDayTable } from '../../server/services/seasons/day-table.ts';
import { message, verbatim } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';

const manner = { timeZone: 'UTC', dateOrder: undefined, unit: 'C' as const };
const at = (text: string) => Date.parse(text);

const written: [string, string, number, number, number | null][] = [
  ['blanks', '2029-04-03 24.5 12', at('2029-04-03T12:00Z'), 24.5, 12],
  ['blanks and decimal commas', '03.04.2029 24,5 12,1', at('2029-04-03T12:00Z'), 24.5, 12.1],
  ['a clock', '2029-04-03 07:30 24.5', at('2029-04-03T07:30Z'), 24.5, null],
  ['semicolons', '2029-04-03 07:30; 24,5; 12', at('2029-04-03T07:30Z'), 24.5, 12],
  ['commas', '2029-04-03, 24.5, 12', at('2029-04-03T12:00Z'), 24.5, 12],
  ['tabs', '2029-04-03\t24.5\t', at('2029-04-03T12:00Z'), 24.5, null],
  ['a sign', '2029-04-03 24.5°C 12 °C', at('2029-04-03T12:00Z'), 24.5, 12],
];
for (const [how, line, atMs, coreC, airC] of written) {
  test(`readDayTable() reads a line with ${how}`, () => {
    expect(readDayTable(line, manner)).toEqual({ rows: [{ atMs, coreC, airC }], refused: [] });
  });
}

test('readDayTable() takes a day at noon of the site, and degrees Fahrenheit', () => {
  const { rows } = readDayTable('2029-07-03 104', { ...manner, timeZone: 'Europe/Lisbon', unit: 'F' });
  expect(rows[0]?.atMs).toBe(at('2029-07-03T11:00Z'));
  expect(rows[0]?.coreC).toBeCloseTo(40, 9);
});

test('readDayTable() passes over a heading and empty lines, sorts, and refuses the same time twice', () => {
  const { rows, refused } = readDayTable('day core\n\n2029-04-04 30\n2029-04-03 20\n2029-04-04 31', manner);
  expect(rows.map(({ coreC }) => coreC)).toEqual([20, 30]);
  expect(refused).toMatchObject([{ line: 5, said: message('import.same-time') }]);
});

const bad: [string, RegExp][] = [
  ['2029-04-31 20', /no day or hour/],
  ['03/04/2029 20', /say which/],
  ['2029-04-03', /no temperature/],
  ['2029-04-03 hot', /not a number/],
  ['2029-04-03 400', /−55 °C to 125 °C/],
];
for (const [line, reason] of bad) {
  test(`readDayTable() refuses "${line}": ${reason.source}`, () => {
    expect(plainEnglish(readDayTable(line, manner).refused[0]?.said ?? verbatim(''))).toMatch(reason);
  });
}
