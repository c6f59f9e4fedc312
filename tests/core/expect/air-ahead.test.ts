/** Foretold air: which of it is reckoned with, and what the course makes of it. */
import { describe, expect, test } from 'vitest';
import { airAheadStaleMs, usableAhead } from '../../../core/expect/air-ahead.ts';
import { airCourse } from '../../../core/expect/air-course.ts';
import { msPerHour } from '../../../shared/units.ts';
import { startMs } from '../helpers.ts';

const at = (hour: number) => startMs + hour * msPerHour;
const hourly = (from: number, to: number, tempC: (hour: number) => number, stepH = 1) =>
  Array.from({ length: Math.floor((to - from) / stepH) + 1 }, (_, index) => from + index * stepH).map((hour) => ({
    atMs: at(hour),
    tempC: tempC(hour),
  }));
const ahead = (points: readonly { atMs: number; tempC: number }[], issuedMs = at(0)) => ({
  source: 'us',
  issuedMs,
  points,
});

describe('usableAhead()', () => {
  test.each([
    ['hourly to the end', hourly(0, 60, () => 9), at(60)],
    ['six-hourly steps, as services give for the days after tomorrow', hourly(0, 60, () => 9, 6), at(60)],
    ['up to a gap of seven hours', [...hourly(0, 20, () => 9), ...hourly(27, 60, () => 9)], at(20)],
    ['nothing that begins hours from now', hourly(10, 60, () => 9), null],
    ['nothing that has gone by', hourly(-20, 4, () => 9), null],
  ])('%s', (_what, points, untilMs) => {
    const { used, points: usable } = usableAhead(ahead(points), at(5));
    expect(used?.untilMs ?? null).toBe(untilMs);
    for (const { atMs } of usable) expect(atMs).toBeLessThanOrEqual(untilMs ?? at(5));
  });

  test('takes no hour to come from what is stale, and keeps those that have gone by', () => {
    const points = hourly(-10, 100, () => 9);
    const fresh = usableAhead(ahead(points, at(0)), at(0) + airAheadStaleMs);
    expect(fresh.used).toEqual({ source: 'us', issuedMs: at(0), untilMs: at(100) });
    const stale = usableAhead(ahead(points, at(0)), at(0) + airAheadStaleMs + 1);
    expect(stale.used).toBeNull();
    expect(stale.points.at(-1)?.atMs).toBe(at(48));
  });
});

describe('airCourse() with foretold air', () => {
  const measured = hourly(0, 48, () => 20);

  test('is as measured, then as foretold, then as the day before', () => {
    const course = airCourse(
      measured,
      startMs,
      100,
      hourly(49, 72, () => 5),
    );
    expect(course[48]).toBe(20);
    expect(course[49]).toBe(5);
    expect(course[72]).toBe(5);
    expect(course[73]).toBeLessThan(12);
  });

  test('without any is as before, to the bit', () => {
    expect(airCourse(measured, startMs, 100, [])).toEqual(airCourse(measured, startMs, 100));
  });

  test('never lets what was foretold replace what was measured', () => {
    const course = airCourse(
      measured,
      startMs,
      60,
      hourly(0, 60, () => 20),
    );
    expect([...course].every((tempC) => tempC === 20)).toBe(true);
  });

  test('is put right by the last day in which both are known, by 5 K at most', () => {
    expect(
      airCourse(
        measured,
        startMs,
        60,
        hourly(0, 60, () => 17),
      )[60],
    ).toBe(20);
    expect(
      airCourse(
        measured,
        startMs,
        60,
        hourly(0, 60, () => 8),
      )[60],
    ).toBe(13);
    // Five hours are too few to tell a shed from a gust.
    expect(
      airCourse(
        measured,
        startMs,
        60,
        hourly(44, 60, () => 17),
      )[60],
    ).toBe(17);
  });

  test('stands in where no air is measured', () => {
    expect(
      airCourse(
        [],
        startMs,
        48,
        hourly(0, 48, (hour) => hour / 4),
      )[40],
    ).toBe(10);
  });
});
