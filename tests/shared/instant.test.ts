import { expect, test } from 'vitest';
import { parseInstant } from '../../shared/contracts/time.ts';

const rows: [string | number, number | undefined][] = [
  ['2031-04-05T06:07:08Z', Date.UTC(2031, 3, 5, 6, 7, 8)],
  ['2031-04-05T06:07:08.250+02:00', Date.UTC(2031, 3, 5, 4, 7, 8, 250)],
  ['2031-04-05 06:07:08z', Date.UTC(2031, 3, 5, 6, 7, 8)],
  ['2032-02-29T00:00:00Z', Date.UTC(2032, 1, 29)],
  ['2031-02-29T00:00:00Z', undefined],
  ['2031-04-31T00:00:00Z', undefined],
  ['2031-13-01T00:00:00Z', undefined],
  ['2031-04-05T25:00:00Z', undefined],
  ['2031-04-05', undefined],
  ['2031-04-05T06:07:08', undefined],
  ['tomorrow', undefined],
  ['', undefined],
  [1_900_000_000, 1_900_000_000_000],
  ['1900000000', 1_900_000_000_000],
  [1_900_000_000_500, 1_900_000_000_500],
  [99_999_999_999, 99_999_999_999_000],
  [100_000_000_000, 100_000_000_000],
  [Number.NaN, undefined],
  [Number.POSITIVE_INFINITY, undefined],
  [0, undefined],
  [-5, undefined],
];
for (const [input, atMs] of rows) {
  test(`parseInstant() reads ${JSON.stringify(input)} as ${atMs}`, () => {
    expect(parseInstant(input)).toBe(atMs);
  });
}
