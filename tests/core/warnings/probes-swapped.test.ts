import { describe, expect, test } from 'vitest';
import { conditionOf } from '../../../shared/conditions/kinds.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { inWords, Played, setupOf, startMs, through } from '../helpers.ts';

const wave = (hour: number, middleC: number, swingK: number, lateH: number): number =>
  middleC - swingK * Math.cos((2 * Math.PI * (hour - 3 - lateH)) / 24);
const air = (hour: number): number => wave(hour, 15, 6, 0);
const warmth = through([0, 18], [30, 40], [120, 38]);

type Places = { readonly core: number; readonly top: number };

/** Deep in the bed a day is hardly felt, and half a day late; under its skin by half, and soon. */
const right = (hour: number): Places => ({
  core: wave(hour, warmth(hour), 0.5, 8),
  top: wave(hour, 15 + 0.4 * (warmth(hour) - 15), 3, 1),
});

function played(hours: number, at: (hour: number) => Places): Played {
  const all = new Played(setupOf());
  for (let minute = 0; minute <= hours * 60; minute += 20) {
    const hour = minute / 60;
    const atMs = startMs + minute * msPerMinute;
    const { core, top } = at(hour);
    all.feed('air', air(hour), atMs);
    all.feed('core', core, atMs);
    all.feed('top', top, atMs);
    all.lookUntil(atMs);
  }
  return all;
}

const swapped = (hour: number): Places => ({ core: right(hour).top, top: right(hour).core });

describe('swapped probes', () => {
  test('are found where the core’s follows the air and the top’s is the warmer', () => {
    const all = played(80, swapped);
    expect(all.raised()).toContain('probes-swapped/null');
    expect(inWords(all.finding('probes-swapped')).seen).toContain('in each other’s place');
  });

  test('are not found where both lie right', () =>
    expect(played(120, right).raised()).not.toContain('probes-swapped/null'));

  test('are not found of a bed that works at its top alone, which is warm and feels the air', () => {
    const atTop = (hour: number): Places => ({ core: wave(hour, 24, 0.5, 8), top: wave(hour, warmth(hour), 3, 1) });
    expect(played(120, atTop).raised()).not.toContain('probes-swapped/null');
  });

  test('are not found of a top whose own heat comes and goes, above a core that feels the air a little', () => {
    const comes = (hour: number): Places => ({ core: wave(hour, 42, 1.5, 2), top: wave(hour, 48, 4, 6) });
    expect(played(120, comes).raised()).not.toContain('probes-swapped/null');
  });

  test('are not found of a cold bed, in which nothing parts them but the weather', () => {
    const cold = (hour: number): Places => ({ core: wave(hour, 15, 3, 1), top: wave(hour, 15, 1, 6) });
    expect(played(120, cold).raised()).not.toContain('probes-swapped/null');
  });

  test('are not found of a core’s probe that lies beside the pile', () => {
    const pulled = (hour: number): Places => ({ core: hour < 50 ? right(hour).core : air(hour), top: right(hour).top });
    expect(played(120, pulled).raised()).not.toContain('probes-swapped/null');
  });

  test('are right again within half a day of being put so', () => {
    const all = played(110, (hour) => (hour < 80 ? swapped(hour) : right(hour)));
    expect(all.raised()).toContain('probes-swapped/null');
    const over = all.events.find(({ kind, hour }) => kind === 'probes-swapped' && hour > 80);
    expect(over?.hour).toBeLessThan(92 + 3);
  });

  test('are not known while the air is not measured', () => {
    const all = new Played(setupOf());
    for (let hour = 0; hour <= 60; hour += 1) {
      all.feed('core', swapped(hour).core, startMs + hour * msPerHour);
      all.feed('top', swapped(hour).top, startMs + hour * msPerHour);
      all.lookUntil(startMs + hour * msPerHour);
    }
    expect(all.finding('probes-swapped').evidence).toBe('missing');
  });

  test('come before too cold, stalled and uneven, and after any heat', () => {
    for (const kind of ['chilled', 'stalling', 'uneven'] as const)
      expect(conditionOf(kind).yieldsTo).toContain('probes-swapped');
    expect(conditionOf('probes-swapped').yieldsTo).toEqual(
      expect.arrayContaining(['self-heating', 'overheating', 'heat-doubted', 'overheating-soon']),
    );
  });
});
