import { expect, test } from 'vitest';
import { airNow } from '../../../core/expect/air-ahead.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { startMs } from '../helpers.ts';

const at = (hour: number) => startMs + hour * msPerHour;
/** Points at these hours, each as many degrees as its hour, of an issue at hour 0. */
const foretold = (...hours: number[]) => ({
  source: 'us',
  issuedMs: at(0),
  points: hours.map((hour) => ({ atMs: at(hour), tempC: hour })),
});

const rows: [what: string, points: number[], nowMs: number, tempC: number | null][] = [
  ['on a point', [0, 1], at(1), 1],
  ['between two', [0, 1], at(0.25), 0.25],
  ['between two that are six hours apart', [0, 6], at(4), 4],
  ['between two that are further apart', [0, 6.01], at(4), null],
  ['before the first', [1, 2], at(1) - 1, null],
  ['at the last', [1, 2], at(2), 2],
  ['after the last', [1, 2], at(2) + 1, null],
  ['two days old', [47, 48, 49], at(48), 48],
  ['older than two days', [47, 48, 49], at(48) + msPerMinute, null],
  ['with nothing foretold', [], at(1), null],
];
test.each(rows)('airNow() %s', (_what, hours, nowMs, tempC) => {
  const now = airNow(foretold(...hours), nowMs);
  if (tempC === null) expect(now).toBeNull();
  else {
    expect(now?.tempC).toBeCloseTo(tempC, 9);
    expect(now).toMatchObject({ doubtK: 5, source: 'us', issuedMs: at(0) });
  }
});
