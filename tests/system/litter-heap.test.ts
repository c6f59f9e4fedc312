/**
 * The real self-heating litter heap of Kamp & Feilberg, Aarhus University, 2023 (CC BY 4.0; see tests/data/README.md):
 * its middle passes 49.5 °C at hour 110 and 50 °C at hour 117.5, peaks at 56.5 °C at hour 243.5, is below 50 °C from hour 541
 * on, and its probe dies after hour 588.5. At 3,600 times the true pace an hour is a second, so the quick tests live through two spans only;
 * BRANHEARTH_LONG_TESTS=1 lives through all of it.
 */
import { describe, expect, test } from 'vitest';
import { type HeapRun, hourOf, playLitterHeap } from './litter-heap.ts';

/** Its middle passes 49.5 °C here. */
const passesLimitH = 110;
const long = process.env.BRANHEARTH_LONG_TESTS === '1';
/** Words that would call the pile well. */
const fine = /working well|gently|passing|come and gone|warming|not begun/;

function expectSilentCore({ sights, raised }: HeapRun): void {
  expect(raised).toContain('probe-silent core');
  const after = sights.filter(({ atH }) => atH > 588.5 + 6);
  expect(after.length).toBeGreaterThan(0);
  for (const { pile } of after) {
    expect(pile.condition).not.toMatch(fine);
    expect(pile.condition).toMatch(/silent/);
    expect(pile.tone).not.toBe('calm');
  }
}

describe.concurrent('the litter heap at 3,600 times its pace', () => {
  test('warms and is warned of above its limit', async () => {
    const { raised, sights } = await playLitterHeap(108, 126);
    // At this pace a machine that is busy for three seconds makes every probe silent for three hours.
    // That it will soon be too hot may be said hours before.
    const others = raised.filter((name) => !name.startsWith('probe-silent') && name !== 'overheating-soon');
    expect(others).toEqual(['overheating']);
    // A slow machine may look for the first time when it is hot already: since when, it says all the same.
    const overheating = sights.at(-1)?.pile.alarms.find(({ kind }) => kind === 'overheating');
    expect(overheating && hourOf(Date.parse(overheating.since))).toBeGreaterThan(passesLimitH);
    expect(overheating).toMatchObject({ state: 'unacknowledged', stands: true });
    const hot = sights.filter(({ pile }) => pile.condition.includes('It is too hot'));
    expect(hot.length).toBeGreaterThan(0);
    for (const { atH } of hot) expect(atH).toBeGreaterThan(passesLimitH);
  });

  test('cools without a stall, and when its core probe dies that is a silent probe, never a fine pile', async () => {
    // Below 49 °C, where the deadband of the limit ends, from hour 570.5 on.
    const run = await playLitterHeap(574, 606);
    expect(run.raised).toContain('probe-silent core');
    expect(run.raised).not.toContain('stalling');
    expect(run.raised).not.toContain('overheating');
    expectSilentCore(run);
  });

  test.runIf(long)(
    'all 1,057 hours: one overheating, no stall, then a silent core to the end',
    async () => {
      const run = await playLitterHeap(0, 1_057);
      for (const { atH, pile } of run.sights) {
        const alarms = pile.alarms.map(({ kind, position, state }) => `${kind} ${position ?? ''} ${state}`);
        console.log(atH.toFixed(1), pile.condition, alarms.join(', '));
      }
      expect(run.raised).toContain('overheating');
      expect(run.raised).not.toContain('stalling');
      expectSilentCore(run);
    },
    1_500_000,
  );
});
