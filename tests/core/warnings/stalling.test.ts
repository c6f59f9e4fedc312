import { describe, expect, test } from 'vitest';
import { stepJudge } from '../../../core/session/judge.ts';
import { msPerHour } from '../../../shared/units.ts';
import { inWords, Played, play, setupOf, startMs, through } from '../helpers.ts';

/** Four probes by the hour, spoken every twenty minutes. */
function playAll(hours: number, at: (hour: number) => Record<'core' | 'top' | 'base' | 'air', number>): Played {
  const all = new Played(setupOf('bran', { recipe: { ...setupOf().recipe, depthM: 0.5 } }));
  for (let minute = 0; minute <= hours * 60; minute += 20) {
    const atMs = startMs + minute * 60_000;
    const wobbleK = 0.05 * Math.sin(minute);
    const { air, ...places } = at(minute / 60);
    all.feed('air', air + wobbleK, atMs);
    for (const position of ['core', 'top', 'base'] as const) all.feed(position, places[position] + wobbleK, atMs);
    all.lookUntil(atMs);
  }
  return all;
}
const stalledAtH = (all: Played): number | undefined => all.events.find(({ kind }) => kind === 'stalling')?.hour;

test('a deep bed that keeps warm but no longer makes heat is a stall after half a day, and the sentence says why', () => {
  const warm = through([0, 22], [30, 38], [130, 37]);
  const all = playAll(130, (hour) => ({ core: warm(hour), top: hour < 40 ? warm(hour) : 24, base: 24, air: 20 }));
  expect(stalledAtH(all)).toBeGreaterThan(52);
  expect(stalledAtH(all)).toBeLessThan(80);
  expect(inWords(all.finding('stalling')).seen).toContain('hardly makes heat any more');
});

test('a rest of ten hours between two humps is no stall, however little heat is made in it', () => {
  const core = through([0, 22], [24, 40], [34, 41], [46, 37.5], [60, 46], [120, 44]);
  expect(
    playAll(110, (hour) => ({ core: core(hour), top: core(hour) - 5, base: core(hour) - 6, air: 20 })).raised(),
  ).not.toContain('stalling/null');
});

test('a bed that is short of air and works at its top alone has not stalled', () => {
  const core = through([0, 20], [100, 26]);
  const top = through([0, 20], [24, 40], [100, 43]);
  const all = playAll(70, (hour) => ({ core: core(hour), top: top(hour), base: 20, air: 19 }));
  expect(all.raised()).not.toContain('stalling/null');
});

test('a warming day that comes through to a thin bed is no sign of life, a core that rises by itself is', () => {
  const recipe = { ...setupOf('soil').recipe, depthM: 0.15 };
  const day = (hour: number): number => 12 - 8 * Math.cos((2 * Math.PI * (hour - 3)) / 24);
  const dead = play(
    setupOf('soil', { recipe }),
    70,
    (hour) => 12 - 2.5 * Math.cos((2 * Math.PI * (hour - 7)) / 24),
    day,
  );
  expect(dead.raised()).toContain('stalling/null');
  const waking = play(setupOf('soil', { recipe }), 70, through([0, 12], [20, 13], [70, 25]), () => 12);
  expect(waking.raised()).not.toContain('stalling/null');
});

test('a core that repeats one value is neither counted as a stall nor cleared of one', () => {
  const all = new Played(setupOf());
  for (let minute = 0; minute <= 44 * 60; minute += 20) {
    const hour = minute / 60;
    const atMs = startMs + hour * msPerHour;
    all.feed('air', 20 + 0.05 * Math.sin(minute), atMs);
    all.feed('core', hour < 31 ? 22 + 0.05 * Math.sin(minute) : 22, atMs);
    all.lookUntil(atMs);
  }
  expect(all.raised()).toEqual([]);
  expect(all.state.stall.forH).toBeLessThan(7);
});

test('a batch that has burnt two fifths of its food and cools is ending', () => {
  const all = play(setupOf(), 110, through([0, 22], [20, 44], [70, 45], [84, 27], [110, 22]), () => 20);
  expect(all.state.work.most).toBeGreaterThan(0.4);
  expect(all.raised()).not.toContain('stalling/null');
});

/** Cools from then on as a bed of 30 cm that makes no heat, to a third of it in 45 h. */
const spentFrom =
  (hours: number, warmC: number) =>
  (hour: number): number =>
    20 + (warmC - 20) * Math.exp((hours - hour) / 45);

/** Warms in a day, keeps its heat so long, and is spent. */
function eatsUpBy(hours: number): (hour: number) => number {
  return (hour) => (hour < hours ? through([0, 22], [24, 44])(hour) : spentFrom(hours, 44)(hour));
}

describe('a bed of poor food', () => {
  test('has come to its end, and no stall, when it has been at work and cools damp and warm enough to go on', () => {
    const all = play(setupOf(), 110, eatsUpBy(30), () => 20);
    expect(all.state.work.most).toBeLessThan(0.4);
    expect(all.state.work.most).toBeGreaterThan(0.15);
    expect(all.raised()).not.toContain('stalling/null');
  });

  test('measured by hand without its air, has come to its end however it seems to cool', () => {
    const all = new Played(setupOf());
    const spent = (hour: number): number => 18 + 24 * Math.exp((24 - hour) / 45);
    for (let hour = 0; hour <= 118; hour += 12) {
      const at = { position: 'core', quantity: 'temperature', atMs: startMs + hour * msPerHour, byHand: true } as const;
      stepJudge(all.state, all.setup, null, {
        ...at,
        value: hour < 24 ? through([0, 22], [24, 42])(hour) : spent(hour),
      });
      all.lookUntil(at.atMs);
    }
    expect(all.state.work.most - all.state.work.done).toBeGreaterThan(0.04);
    expect(all.raised()).not.toContain('stalling/null');
  });

  test('measured by hand without its air, has stalled where its heat is gone between two visits', () => {
    const all = new Played(setupOf());
    const bared = through([0, 22], [24, 42], [36, 40], [48, 22], [108, 18]);
    for (let hour = 0; hour <= 108; hour += 12) {
      const at = { position: 'core', quantity: 'temperature', atMs: startMs + hour * msPerHour, byHand: true } as const;
      stepJudge(all.state, all.setup, null, { ...at, value: bared(hour) });
      all.lookUntil(at.atMs);
    }
    expect(all.state.work.most).toBeGreaterThan(0.15);
    expect(all.raised()).toContain('stalling/null');
  });

  test('has stalled where it is too dry to go on', () => {
    const recipe = { ...setupOf().recipe, moistureFrac: 0.36 };
    expect(play(setupOf('bran', { recipe }), 110, eatsUpBy(30), () => 20).raised()).toContain('stalling/null');
  });

  test('has stalled where the heat was so great that its culture may be lost', () => {
    const cooked = through([0, 45], [4, 63], [7, 61]);
    const all = play(
      setupOf(),
      100,
      (hour) => (hour < 7 ? cooked(hour) : spentFrom(7, 61)(hour)),
      () => 20,
    );
    expect(all.state.work.most).toBeLessThan(0.4);
    expect(all.raised()).toContain('stalling/null');
  });
});

describe('a thin soil bed in warm air', () => {
  const recipe = { ...setupOf('soil').recipe, depthM: 0.08 };

  test('has not stalled, as a good culture would not show either', () => {
    expect(
      play(
        setupOf('soil', { recipe }),
        70,
        () => 24,
        () => 24.5,
      ).raised(),
    ).not.toContain('stalling/null');
  });

  test('has where it is too cold to work', () => {
    expect(
      play(
        setupOf('soil', { recipe }),
        70,
        () => 6,
        () => 6,
      ).raised(),
    ).toContain('stalling/null');
  });
});
