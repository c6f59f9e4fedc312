import { expect, test, vi } from 'vitest';
import { Breaks } from '../../shared/breaks.ts';

/** As a piece of work that cannot be parted. */
function workFor(ms: number): void {
  const untilMs = performance.now() + ms;
  while (performance.now() < untilMs);
}

/** How often the event loop came round while this went on. */
async function roundsDuring(work: () => Promise<unknown>): Promise<number> {
  let rounds = 0;
  let goesOn = true;
  const count = () => {
    rounds += 1;
    if (goesOn) setImmediate(count);
  };
  setImmediate(count);
  await work();
  goesOn = false;
  return rounds;
}

test('Breaks.map gives what a map would, and others come to their turn many times between two pieces of work', async () => {
  let made: number[] = [];
  const rounds = await roundsDuring(async () => {
    made = await new Breaks().map([1, 2, 3, 4], (one) => {
      workFor(6);
      return 10 * one;
    });
  });
  expect(made).toEqual([10, 20, 30, 40]);
  expect(rounds).toBeGreaterThan(4 * 5); // one round each would take in one new connection each
});

test.each([
  { workedMs: 4.9, restMs: 0 },
  { workedMs: 5, restMs: 5 },
  { workedMs: 19, restMs: 19 },
  { workedMs: 300, restMs: 20 },
])('Breaks rests $restMs ms after $workedMs ms of work', async ({ workedMs, restMs }) => {
  vi.useFakeTimers({ toFake: ['performance', 'setTimeout', 'clearTimeout'] });
  try {
    const breaks = new Breaks();
    vi.advanceTimersByTime(workedMs);
    const beganMs = performance.now();
    const rest = breaks.take();
    await vi.runAllTimersAsync();
    await rest;
    expect(performance.now() - beganMs).toBeCloseTo(restMs, 6);
  } finally {
    vi.useRealTimers();
  }
});
