import { expect, test } from 'vitest';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import { departedK, weatherDeparts } from '../../../core/expect/weather-departs.ts';
import { msPerHour } from '../../../shared/units.ts';
import { setupOf, startMs } from '../helpers.ts';

const air = Array.from({ length: 25 }, (_, hour) => ({ atMs: startMs + hour * msPerHour, tempC: 18 }));
const band = expectedBand(setupOf(), air, startMs + 72 * msPerHour, { members: 3 });

const rows: [string, number, number, boolean][] = [
  // air [°C], hour of the batch
  ['as measured', 18, 10, false],
  ['as the day before, beyond what was measured', 18, 40, false],
  ['just within', 18 + departedK - 0.01, 40, false],
  ['just too warm', 18 + departedK, 40, true],
  ['just too cold', 18 - departedK, 40, true],
  ['beyond the band', 0, 72, false],
];
for (const [name, airC, hour, departs] of rows) {
  test(`weatherDeparts() of air ${name}: ${departs}`, () => {
    expect(weatherDeparts(band, airC, hour)).toBe(departs);
  });
}

test('weatherDeparts() says no of a band that does not tell its air', () => {
  const { airC, ...bare } = band;
  expect(airC?.length).toBe(band.p50C.length);
  expect(weatherDeparts(bare, -20, 40)).toBe(false);
});
