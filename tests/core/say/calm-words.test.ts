/** A sentence does not change for noise: changes are counted over long series that hover at each limit. */
import { describe, expect, test } from 'vitest';
import { comfortNow, comfortOfHour } from '../../../core/estimate/comfort.ts';
import { rungAt } from '../../../core/estimate/hazard-rung.ts';
import { type HotStep, hotStepAt } from '../../../core/estimate/hot-step.ts';
import { stageLimits } from '../../../shared/stage.ts';
import { msPerMinute } from '../../../shared/units.ts';
import { createRandom } from '../../../simulator/model/random.ts';
import { Played, setupOf, startMs, through } from '../helpers.ts';

/** How often tone or words change, numbers left aside, in four days at a core that hovers about a temperature by a chip's noise. */
function changesAt(hoverC: number): number {
  const random = createRandom(71);
  const rise = through([0, 24], [30, hoverC - 4], [44, hoverC]);
  const all = new Played(setupOf());
  let before: string | undefined;
  let changes = 0;
  for (let minute = 0; minute <= 144 * 60; minute += 10) {
    const hour = minute / 60;
    const atMs = startMs + minute * msPerMinute;
    const swingK = hour < 44 ? 0 : 0.15 * Math.sin((2 * Math.PI * hour) / 5);
    all.feed('core', Math.round((rise(hour) + swingK + 0.1 * random.normal()) * 16) / 16, atMs);
    all.feed('air', 20, atMs);
    all.lookUntil(atMs);
    if (hour < 48) continue;
    const { condition, next, tone } = all.say();
    const words = `${condition} ${next} ${tone}`.replaceAll(/[0-9]+([.][0-9]+)?/g, '0');
    if (before !== undefined && words !== before) changes += 1;
    before = words;
  }
  return changes;
}

const limits: [string, number][] = [
  ['the least that the culture likes', stageLimits.bran.comfortMinC],
  ['the most that it likes', stageLimits.bran.comfortMaxC],
  ['the limit at which to act', stageLimits.bran.actC],
  ['the limit of loss', stageLimits.bran.lossC],
  ['the first step of self-heating', 65],
  ['the second step of self-heating', 71],
  ['the third step of self-heating', 79],
];
for (const [what, limitC] of limits) {
  test(`a core that hovers for four days at ${what}, ${limitC} °C, changes its words at most once a day`, () => {
    expect(changesAt(limitC)).toBeLessThanOrEqual(4);
  });
}

test.each<[was: HotStep, tempC: number, step: HotStep]>([
  // was, °C: step
  [0, 50, 0],
  [0, 50.4, 0],
  [0, 50.5, 1],
  [1, 50.1, 1],
  [1, 50, 0],
  [1, 60, 2],
  [2, 59, 2],
  [2, 58.9, 1],
  [2, 50, 0],
  [0, 61, 2],
])('hotStepAt() after step %i, at %d °C of 50 and 60: %i', (was, tempC, step) => {
  expect(hotStepAt(was, tempC, { actC: 50, lossC: 60 })).toBe(step);
});

describe('comfortOfHour()', () => {
  const rows: ['below' | 'within' | 'above', number, string][] = [
    ['within', 45, 'within'],
    ['within', 45.1, 'above'],
    ['above', 44, 'above'],
    ['above', 43.9, 'within'],
    ['within', 35, 'within'],
    ['within', 34.9, 'below'],
    ['below', 36, 'below'],
    ['below', 36.1, 'within'],
    ['below', 50, 'above'],
    ['above', 20, 'below'],
  ];
  test.each(rows)('after %s, of an hour at %d °C: %s', (was, meanC, wanted) => {
    expect(comfortOfHour(was, meanC, stageLimits.bran)).toBe(wanted);
  });
});

describe('comfortNow()', () => {
  const rows: ['below' | 'within' | 'above', number, string][] = [
    ['within', 46, 'within'],
    ['within', 46.1, 'above'],
    ['above', 44, 'above'],
    ['above', 43.9, 'within'],
    ['within', 34, 'within'],
    ['within', 33.9, 'below'],
    ['below', 36, 'below'],
    ['below', 36.1, 'within'],
    ['below', 47, 'above'],
  ];
  test.each(rows)('within an hour after one %s, at %d °C: %s', (hour, coreC, wanted) => {
    expect(comfortNow(hour, coreC, stageLimits.bran)).toBe(wanted);
  });
});

test.each([
  [0, 64.9, 0],
  [0, 65, 1],
  [1, 64, 1],
  [1, 63.9, 0],
  [1, 70.9, 1],
  [1, 71, 2],
  [2, 70, 2],
  [2, 69.9, 1],
  [5, 92, 5],
  [5, 60, 0],
])('rungAt() of one that stood on %d, at %d °C: %d', (was, tempC, rung) => {
  expect(rungAt(was, tempC)).toBe(rung);
});
