import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { giveBackOnceQuiet } from '../../../server/app/give-back-memory.ts';

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

/** The share at work in each stretch of ten seconds. */
function thread(...shares: number[]) {
  const giveBack = vi.fn();
  let asked = 0;
  // The first time only sets the mark.
  return { giveBack, busySince: () => (asked++ === 0 ? 1 : (shares[asked - 2] ?? 0)) };
}

test('memory is given back once the thread has rested, and not while it works', () => {
  const use = thread(1, 0.31, 0.3);
  giveBackOnceQuiet(use);
  vi.advanceTimersByTime(20_000);
  expect(use.giveBack).not.toHaveBeenCalled();
  vi.advanceTimersByTime(10_000);
  expect(use.giveBack).toHaveBeenCalledOnce();
  vi.advanceTimersByTime(100_000);
  expect(use.giveBack).toHaveBeenCalledOnce();
});

test('memory is given back once where it was asked for twice meanwhile', () => {
  const [first, second] = [thread(), thread()];
  giveBackOnceQuiet(first);
  vi.advanceTimersByTime(9_000);
  giveBackOnceQuiet(second);
  vi.advanceTimersByTime(100_000);
  expect([first.giveBack, second.giveBack].map(({ mock }) => mock.calls.length)).toEqual([0, 1]);
});
