import { expect, test } from 'vitest';
import { isRising, type Seen, withSeen } from '../../web/src/features/probes/rising.ts';

const seen = (...temps: readonly (readonly [minute: number, tempC: number])[]) =>
  temps.reduce<readonly Seen[]>((all, [minute, tempC]) => withSeen(all, { atMs: minute * 60_000, tempC }), []);

test.each([
  ['nothing seen', seen(), false],
  ['one value', seen([0, 40]), false],
  ['a degree within five minutes', seen([0, 24], [1, 24.2], [2, 25]), true],
  ['just under a degree', seen([0, 24], [1, 24.9]), false],
  ['a degree over longer', seen([0, 24], [4, 24.4], [8, 24.8], [12, 25.2]), false],
  ['falling', seen([0, 27], [1, 25]), false],
  ['back where it was', seen([0, 24], [1, 27], [2, 24.2]), false],
  ['the same value again', seen([1, 24], [1, 24]), false],
])('isRising() of %s', (_name, all, expected) => {
  expect(isRising(all)).toBe(expected);
});
