/** Piles that somebody measures with a thermometer, alone or beside a probe. */
import { describe, expect, test } from 'vitest';
import { stepJudge } from '../../../core/session/judge.ts';
import { measureNext } from '../../../core/session/measure-next.ts';
import type { MeasureReason } from '../../../shared/measure-reasons.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import type { Position } from '../../../shared/names.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { Played, setupOf, startMs } from '../helpers.ts';

const at = (hour: number) => startMs + hour * msPerHour;

function measure(pile: Played, hour: number, tempC: number, position: Position = 'core'): void {
  pile.lookUntil(at(hour));
  const reading = { position, quantity: 'temperature' as const, value: tempC, atMs: at(hour), byHand: true };
  stepJudge(pile.state, pile.setup, null, reading);
  pile.evaluate(at(hour));
}

/** A core probe every ten minutes. */
function probe(pile: Played, fromHour: number, toHour: number, coreC: (hour: number) => number): void {
  for (let atMs = at(fromHour); atMs <= at(toHour); atMs += 10 * msPerMinute) {
    const hour = (atMs - startMs) / msPerHour;
    pile.feed('core', coreC(hour) + 0.05 * Math.sin(atMs / 7777), atMs);
    pile.lookUntil(atMs);
  }
}

const byHandOnly = () => new Played(setupOf('bran', { served: {} }));
const withProbe = () => new Played(setupOf('bran', { served: { core: startMs } }));

describe('a pile that is measured by hand only', () => {
  test('is judged from that, with its age, and nothing is said of a probe', () => {
    const pile = byHandOnly();
    for (const [hour, tempC] of [
      [1, 22],
      [13, 31],
      [25, 38],
      [37, 41],
      [49, 41],
      [61, 41],
      [73, 41],
      [85, 41],
    ] as const) {
      measure(pile, hour, tempC);
    }
    pile.lookUntil(at(87));
    expect(pile.last?.positions.core).toMatchObject({ temperatureC: 41, byHand: true, silent: false });
    expect(pile.say().condition).toMatch(/the core was at 41 °C 2 hours ago/);
    expect(pile.raised().filter((kind) => kind.startsWith('probe-'))).toEqual([]);
    for (const kind of ['probe-silent', 'probe-stuck', 'probe-out'] as const) {
      expect(pile.finding(kind, 'core').evidence).toBe('absent');
    }
  });

  test('is too hot at the reading that shows it, however far it came since the one before', () => {
    const pile = byHandOnly();
    measure(pile, 1, 22);
    measure(pile, 13, 46);
    expect(pile.raised()).toEqual([]);
    measure(pile, 13.8, 58);
    expect(pile.last?.positions.core?.doubted).toBeNull();
    expect(pile.finding('overheating')).toMatchObject({ evidence: 'present' });
    expect(pile.stateOf('overheating')).toBe('unacknowledged');
  });

  test('is not known any more once nobody measured for 18 h, and an alarm does not end by that', () => {
    const pile = byHandOnly();
    measure(pile, 1, 22);
    measure(pile, 13, 54);
    pile.lookUntil(at(13 + 17.9));
    expect(pile.finding('overheating').evidence).toBe('present');
    pile.lookUntil(at(13 + 18.2));
    expect(pile.finding('overheating').evidence).toBe('missing');
    expect(pile.stateOf('overheating')).toBe('unacknowledged');
    expect(pile.say()).toMatchObject({
      condition: 'It was too hot; its core was last measured 18 hours ago, at 54 °C, and nobody knows how it is now.',
      next: 'Go and measure the core with a long-stem thermometer now.',
    });
    measure(pile, 32, 44);
    expect(pile.finding('overheating').evidence).toBe('absent');
  });

  test('says that nobody knows when that is all there is', () => {
    const pile = byHandOnly();
    measure(pile, 1, 30);
    pile.lookUntil(at(21));
    expect(pile.say()).toEqual({
      condition: 'The core was last measured 20 hours ago, at 30 °C, so nobody can say how the pile is now.',
      next: 'Measure the core with a long-stem thermometer, and write it down.',
      tone: 'act',
    });
  });

  test('that has cooled to its air is not taken for a probe that was pulled out', () => {
    const pile = byHandOnly();
    for (let hour = 1; hour < 120; hour += 6) {
      measure(pile, hour, 20, 'air');
      measure(pile, hour + 0.05, hour < 60 ? 40 : 20.5);
    }
    pile.lookUntil(at(116));
    expect(pile.finding('probe-out', 'core').evidence).toBe('absent');
    expect(pile.last?.coreDoubted).toBe(false);
  });

  test('says when to measure next, first of all at once', () => {
    const pile = byHandOnly();
    pile.evaluate(at(0));
    expect(pile.last?.measureNext).toMatchObject({ position: 'core', atMs: at(0), reason: 'never-measured' });
    measure(pile, 1, 22);
    expect(pile.last?.measureNext).toMatchObject({ atMs: at(13), reason: 'quiet' });
  });
});

describe('a thermometer beside a probe', () => {
  test('that can be believed is compared with it, and changes nothing', () => {
    const pile = withProbe();
    probe(pile, 0, 10, () => 30);
    measure(pile, 10.1, 33);
    expect(pile.last?.positions.core?.temperatureC).toBeCloseTo(30, 0);
    expect(pile.last?.measureNext).toBeNull();
    expect(pile.last?.measuredByHand).toMatchObject([{ position: 'core', tempC: 33, atMs: at(10.1) }]);
    const probeC = pile.last?.measuredByHand[0]?.probeC ?? 0;
    expect(Math.abs(probeC - 30)).toBeLessThan(0.1);
  });

  const distances: [hour: number, isBeside: boolean][] = [
    [10.99, true],
    [11.01, false],
  ];
  test.each(distances)('read last at 10 h speaks of the same as a hand at %d h: %s', (hour, isBeside) => {
    const pile = withProbe();
    probe(pile, 0, 10, () => 30);
    measure(pile, hour, 33);
    expect(pile.last?.measuredByHand[0]?.probeC !== null).toBe(isBeside);
  });

  test('that is silent answers for it: the alarm that stood without sight ends, the silence does not', () => {
    const pile = withProbe();
    probe(pile, 0, 6, () => 54);
    pile.lookUntil(at(20));
    expect(pile.stateOf('probe-silent', 'core')).toBe('unacknowledged');
    expect(pile.finding('overheating').evidence).toBe('missing');
    expect(pile.last?.measureNext).toMatchObject({ reason: 'probe-lost', atMs: pile.last?.atMs });

    measure(pile, 20, 41);
    expect(pile.finding('overheating').evidence).toBe('absent');
    expect(pile.finding('probe-silent', 'core').evidence).toBe('present');
    expect(pile.last?.measureNext).toMatchObject({ reason: 'not-known-yet' });
    pile.lookUntil(at(24));
    expect(pile.stateOf('overheating')).toMatch(/^(normal|returned-unacknowledged)$/);
    expect(pile.stateOf('probe-silent', 'core')).toBe('unacknowledged');
  });

  test('that comes back speaks for itself again', () => {
    const pile = withProbe();
    probe(pile, 0, 6, () => 40);
    measure(pile, 20, 47);
    expect(pile.last?.positions.core).toMatchObject({ temperatureC: 47, byHand: true });
    probe(pile, 21, 24, () => 46);
    expect(pile.last?.positions.core?.byHand).toBeUndefined();
    expect(pile.last?.measureNext).toBeNull();
  });

  test('that is stuck is not believed over it', () => {
    const pile = withProbe();
    for (let atMs = at(0); atMs <= at(40); atMs += 10 * msPerMinute) {
      pile.feed('core', 38.19, atMs);
      pile.lookUntil(atMs);
    }
    expect(pile.finding('probe-stuck', 'core').evidence).toBe('present');
    measure(pile, 40.1, 57);
    for (let atMs = at(40.2); atMs <= at(42); atMs += 10 * msPerMinute) {
      pile.feed('core', 38.19, atMs);
      pile.lookUntil(atMs);
    }
    expect(pile.finding('overheating')).toMatchObject({ evidence: 'present' });
    expect(pile.finding('probe-stuck', 'core').evidence).toBe('present');
  });
});

describe('measureNext()', () => {
  const rows: [
    what: string,
    tempC: number,
    before: [tempC: number, hoursAgo: number] | null,
    reason: MeasureReason,
    afterH: number,
  ][] = [
    ['over its limit', 50, null, 'over-limit', 2],
    ['just under it, at an unknown pace', 49.9, null, 'not-known-yet', 1],
    ['cool, at an unknown pace', 22, null, 'quiet', 12],
    ['warm, at an unknown pace', 40, null, 'not-known-yet', 5],
    ['warm and resting', 40, [40, 12], 'quiet', 12],
    ['near its limit and resting', 45.1, [45.1, 12], 'near-limit', 6],
    ['not near it and resting', 45, [45, 12], 'quiet', 12],
    ['warming by 1 K/h', 41, [29, 12], 'climbing', 3],
    ['warming by 1 K/h, far from it', 14, [2, 12], 'quiet', 12],
    ['cooling', 44, [48, 6], 'quiet', 12],
    ['measured twice in a quarter of an hour', 40, [39, 0.25], 'not-known-yet', 5],
  ];
  test.each(rows)('%s, %d °C', (_what, tempC, before, reason, afterH) => {
    const hand = {
      tempC,
      atMs: at(20),
      beforeC: before?.[0] ?? null,
      beforeMs: before ? at(20 - before[1]) : null,
      probeC: null,
      probeAtMs: null,
      standsIn: false,
    };
    const next = measureNext({ hand, isProbeLost: false, limits: { actC: 50 }, nowMs: at(21) });
    expect([next.reason, Math.round(((next.atMs - at(20)) / msPerHour) * 100) / 100]).toEqual([reason, afterH]);
  });

  test.each([
    [3, /^Measure the core again by /],
    [3.01, /^Measure the core now, it was due by /],
  ])('%d h after a measurement that asks for the next in 3 h', (hours, says) => {
    const hand = { tempC: 41, atMs: at(20), beforeC: 29, beforeMs: at(8) };
    const next = measureNext({
      hand: { ...hand, probeC: null, probeAtMs: null, standsIn: false },
      isProbeLost: false,
      limits: { actC: 50 },
      nowMs: at(20) + hours * msPerHour,
    });
    expect(plainEnglish(next.says, at(24))).toMatch(says);
  });
});
