import { expect, test } from 'vitest';
import { coreEndOfHour } from '../../../core/estimate/hours.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import { type JudgeState, startJudge, stepJudge } from '../../../core/session/judge.ts';
import { msPerHour } from '../../../shared/units.ts';
import { setupOf, startMs } from '../helpers.ts';

const setup = setupOf();
const band = expectedBand(setup, [{ atMs: startMs, tempC: 20 }], startMs + 120 * msPerHour, { members: 40 });

/** Feeds the core (and air) at these hours. */
function feed(state: JudgeState, hours: readonly number[], coreC: (hour: number) => number): JudgeState {
  for (const hour of hours) {
    const atMs = startMs + hour * msPerHour;
    stepJudge(state, setup, band, { position: 'air', quantity: 'temperature', value: 20, atMs });
    stepJudge(state, setup, band, { position: 'core', quantity: 'temperature', value: coreC(hour), atMs });
  }
  return state;
}

const rising = (hour: number): number => 20 + 0.8 * hour;
const every = (stepH: number, untilH: number, fromH = 0): number[] =>
  Array.from({ length: Math.round((untilH - fromH) / stepH) + 1 }, (_, at) => fromH + at * stepH);

for (const [name, hours] of [
  ['every ten minutes', every(1 / 6, 20)],
  ['once an hour, on the hour', every(1, 20)],
  ['once an hour, between the hours', every(1, 20.5, 0.5)],
  ['every three hours', every(3, 21)],
] as const) {
  test(`markHourEnds() of a probe that speaks ${name} has the core as it was at each hour's end`, () => {
    const state = feed(startJudge(setup), hours, rising);
    for (const hour of [3, 10, 19]) expect(coreEndOfHour(state.hours, hour)).toBeCloseTo(rising(hour + 1), 1);
  });
}

const gaps: [number, boolean][] = [
  [3.4, true],
  [3.5, true],
  [3.6, false],
];
for (const [gapH, bridged] of gaps) {
  test(`markHourEnds() over a gap of ${gapH} h ${bridged ? 'goes straight across' : 'says nothing'}`, () => {
    const state = feed(startJudge(setup), [...every(0.25, 10), 10 + gapH], rising);
    for (const hour of [10, 11, 12]) {
      const end = coreEndOfHour(state.hours, hour);
      if (bridged) expect(end).toBeCloseTo(rising(hour + 1), 1);
      else expect(end).toBeNull();
    }
  });
}

test('stepAhead() of an hourly probe begins at the reading that has just come, not at the one before', () => {
  const state = feed(startJudge(setup), every(1, 24), rising);
  expect(state.ahead.forecast?.atMs).toBe(startMs + 24 * msPerHour);
  expect(Math.abs((state.ahead.forecast?.p50C[0] ?? 0) - rising(25))).toBeLessThan(0.6);
});

test('stepAhead() is silent after a core that was silent, and speaks again with it', () => {
  const state = feed(startJudge(setup), every(0.5, 24), rising);
  expect(state.ahead.forecast).not.toBeNull();
  feed(state, [30], rising);
  expect(state.ahead.forecast).toBeNull();
  feed(state, every(0.5, 33, 30.5), rising);
  expect(state.ahead.forecast?.atMs).toBe(startMs + 33 * msPerHour);
});

test('stepAhead() goes on identically from a state that was put away as JSON', () => {
  const whole = feed(startJudge(setup), every(1 / 6, 60), rising);
  const first = feed(startJudge(setup), every(1 / 6, 37), rising);
  const second = feed(JSON.parse(JSON.stringify(first)) as JudgeState, every(1 / 6, 60, 37 + 1 / 6), rising);
  expect(second).toEqual(whole);
});
