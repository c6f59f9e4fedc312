// While a hazard alarm waited out its hold, a pile whose core probe was talking all the time was said to have lost it.
import { expect, test } from 'vitest';
import { sayCondition } from '../../../core/say/condition.ts';
import type { StandingAlarm } from '../../../core/say/saying.ts';
import { inSentences, type Played, play, setupOf, through } from '../helpers.ts';

const standing = (kind: StandingAlarm['kind']): StandingAlarm[] => [
  { kind, state: 'unacknowledged', position: null, stands: true },
];

/** What is said while an alarm of that kind still stands, whatever is seen now. */
function sayWith(kind: StandingAlarm['kind'], { last }: Played) {
  if (last === null) throw new Error('never looked at');
  return inSentences(sayCondition(last, standing(kind)));
}

test('sayCondition() of a pile that was dangerously hot and is talking: it is coming down', () => {
  const { condition, tone } = sayWith('self-heating', play(setupOf(), 44, through([0, 30], [40, 67], [44, 58])));
  expect(condition).toBe('It was heating dangerously and is coming down: the core is at 58 °C.');
  expect(condition).not.toContain('silent');
  expect(tone).toBe('act');
});

test('sayCondition() of a pile that was rising towards its limit and has eased does not say that it rises', () => {
  const { condition } = sayWith('overheating-soon', play(setupOf(), 60, through([0, 22], [40, 47], [60, 44])));
  expect(condition).toBe('It was on its way to being too hot and has eased: the core is at 44 °C.');
});
