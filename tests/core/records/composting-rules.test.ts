import { describe, expect, test } from 'vitest';
import { hoursAtLeast, recordSays, ruleFacts, startRuleLog, toHours } from '../../../core/records/composting-rules.ts';
import { followHeat, type HeatLog, startHeatLog } from '../../../core/records/heat-log.ts';
import { worded } from '../../../shared/messages/in-words.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../../shared/units.ts';

/** A reading each `stepMs` from 0 to `toMs`, both included. */
function measured(toMs: number, tempC: (atMs: number) => number, stepMs = 10 * msPerMinute): HeatLog {
  const log = startRuleLog();
  for (let atMs = 0; atMs < toMs; atMs += stepMs) followHeat(log, atMs, tempC(atMs));
  followHeat(log, toMs, tempC(toMs));
  return log;
}
const facts = (log: HeatLog, turns: number[] = []) =>
  Object.fromEntries(worded(ruleFacts(log, turns)).map((one) => [one.rule, one]));

describe('time at temperature, beside what the rules ask', () => {
  // 7 CFR 205.203(c)(2): 131 °F is 55.00 °C and 170 °F is 76.67 °C, exact conversions.
  test('72 h at 55.0 °C is shown as 72 h', () => {
    expect(facts(measured(72 * msPerHour, () => 55))['US organic, in-vessel or static aerated pile']?.measured).toBe(
      'longest run 72 h within 131 to 170 °F',
    );
  });

  test('71 h 59 min is shown as less, never rounded up', () => {
    const log = measured(72 * msPerHour - msPerMinute, () => 55);
    expect(facts(log)['US organic, in-vessel or static aerated pile']?.measured).toBe(
      'longest run 71.98 h within 131 to 170 °F',
    );
  });

  test('a moment at 77 °C breaks the run within 131 to 170 °F, but not the time at or above 55 °C', () => {
    const log = measured(80 * msPerHour, (atMs) => (atMs === 40 * msPerHour ? 77 : 60));
    expect(facts(log)['US organic, in-vessel or static aerated pile']?.measured).toBe(
      'longest run 39.83 h within 131 to 170 °F',
    );
    expect(hoursAtLeast(log).find(({ tempC }) => tempC === 55)).toEqual({ tempC: 55, totalH: 80, longestRunH: 80 });
  });

  test('15 days in a windrow with 4 turns shows 360 h and 4 turns; a turn before the heat is not among them', () => {
    const log = measured(17 * msPerDay, (atMs) => (atMs < 2 * msPerDay ? 30 : 58));
    const turns = [1, 4, 7, 10, 13].map((day) => day * msPerDay);
    expect(facts(log, turns)['US organic, windrow']?.measured).toBe(
      'longest run 360 h within 131 to 170 °F; 4 turns logged between the first and last reading there',
    );
  });

  // 40 CFR 503 Appendix B(A)(4) says "exceeds 55 °C": exactly 55.0 does not.
  test('120 h at 41 °C with 4 h at exactly 55.0 °C shows no time above 55 °C', () => {
    const log = measured(120 * msPerHour, (atMs) => (atMs >= 50 * msPerHour && atMs <= 54 * msPerHour ? 55 : 41));
    expect(facts(log)['US sewage sludge, composting to significantly reduce pathogens']?.measured).toBe(
      'longest run 120 h at or above 40 °C; 0 h above 55 °C in all',
    );
  });

  test('no rule is ever said to be met', () => {
    const log = measured(30 * msPerDay, () => 66);
    const words = JSON.stringify([
      worded(ruleFacts(log, [msPerDay, 2 * msPerDay, 3 * msPerDay])),
      recordSays.map((one) => plainEnglish(one)),
    ]);
    expect(words).not.toMatch(/\b(meets|met|pass(es|ed)?|complie[sd]|compliant|safe)\b/i);
    expect(recordSays.map((one) => plainEnglish(one)).join(' ')).toMatch(/Not sanitised.*not a certification/s);
  });

  test('every rule names its source and whether its wording was seen', () => {
    for (const { source, standing } of worded(ruleFacts(startRuleLog(), []))) {
      expect(source).toMatch(/\d/);
      expect(['seen', 'from memory']).toContain(standing);
    }
  });
});

describe('followHeat()', () => {
  const band = { fromC: 50, toC: Number.POSITIVE_INFINITY };

  test('counts a stretch only when both its ends lie in the band', () => {
    const log = startHeatLog([band]);
    for (const [hour, tempC] of [49, 50, 51, 49.9, 50].entries()) followHeat(log, hour * msPerHour, tempC);
    expect(log.bands[0]).toMatchObject({ totalMs: msPerHour, longestMs: msPerHour });
    expect(log.measuredMs).toBe(4 * msPerHour);
  });

  test('knows nothing of gaps over 75 minutes, and a run ends there', () => {
    const log = startHeatLog([band]);
    for (const atH of [0, 1.25, 2.75, 3.75, 4.75]) followHeat(log, atH * msPerHour, 60);
    expect(log.bands[0]).toMatchObject({ totalMs: 3.25 * msPerHour, longestMs: 2 * msPerHour });
    expect(log.measuredMs).toBe(3.25 * msPerHour);
  });

  test('leaves out a reading that is not newer', () => {
    const log = startHeatLog([band]);
    for (const atH of [0, 1, 1, 0.5]) followHeat(log, atH * msPerHour, 60);
    expect(log.measuredMs).toBe(msPerHour);
  });

  test('remembers the highest and when it was', () => {
    const log = startHeatLog([]);
    for (const [hour, tempC] of [20, 41, 41, 30].entries()) followHeat(log, hour * msPerHour, tempC);
    expect([log.highestC, log.highestAtMs]).toEqual([41, msPerHour]);
  });
});

test('toHours() rounds down to a hundredth', () => {
  expect([toHours(msPerHour), toHours(msPerHour - 1), toHours(0)]).toEqual([1, 0.99, 0]);
});
