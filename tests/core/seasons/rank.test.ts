import { describe, expect, test } from 'vitest';
import { bestOf, lastYear } from '../../../core/seasons/best.ts';
import { comfortShare, ranked } from '../../../core/seasons/rank.ts';
import type { ComparedBatch } from '../../../shared/contracts/seasons.ts';
import type { Verdict } from '../../../shared/verdict.ts';

interface Given {
  readonly alarmH?: number | null;
  readonly comfortH?: number | null;
  readonly peakC?: number;
  readonly day?: number;
}

/** Ten days long and measured all the time. */
function batch(id: string, verdict: Verdict | null, { alarmH = 0, comfortH = 120, peakC = 45, day = 1 }: Given = {}) {
  return {
    id,
    verdict: verdict && { verdict },
    startedAt: `2030-04-${String(day).padStart(2, '0')}T07:00:00.000Z`,
    measures: { alarmH, comfortH, peakC, lengthDays: 10, measuredFrac: 1 },
  } as unknown as ComparedBatch;
}

const idsOf = (batches: readonly ComparedBatch[]) => batches.map(({ id }) => id);

describe('ranked()', () => {
  test('a person’s verdict goes before every figure', () => {
    const batches = [
      batch('calm but lost', 'lost', { alarmH: 0, comfortH: 240 }),
      batch('poor', 'poor', { alarmH: 1 }),
      batch('usable', 'usable', { alarmH: 90 }),
      batch('alarmed but good', 'good', { alarmH: 200, comfortH: 2 }),
    ];
    expect(idsOf(ranked(batches))).toEqual(['alarmed but good', 'usable', 'poor', 'calm but lost']);
  });

  test('of one verdict: fewer whole hours of warnings, then more of its time in the comfortable band, then the newer', () => {
    const batches = [
      batch('not measured', 'good', { alarmH: null, comfortH: null }),
      batch('older', 'good', { alarmH: 0.4, day: 2 }),
      batch('newer', 'good', { alarmH: 0, day: 9 }),
      batch('comfortable', 'good', { alarmH: 0.3, comfortH: 200 }),
      batch('warned', 'good', { alarmH: 6, comfortH: 240 }),
    ];
    expect(idsOf(ranked(batches))).toEqual(['comfortable', 'newer', 'older', 'warned', 'not measured']);
  });

  test('what nobody judged has no place', () => {
    expect(idsOf(ranked([batch('a', null, { comfortH: 240 }), batch('b', 'lost')]))).toEqual(['b']);
  });
});

test('comfortShare(): 120 of 240 measured hours is a half; unknown without a core', () => {
  expect(comfortShare(batch('a', 'good', { comfortH: 120 }))).toBe(0.5);
  expect(comfortShare(batch('a', 'good', { comfortH: null }))).toBeNull();
});

describe('bestOf()', () => {
  const year = [
    batch('first', 'good', { peakC: 44 }),
    batch('second', 'good', { alarmH: 5, peakC: 45 }),
    batch('burnt', 'lost', { peakC: 70 }),
    batch('silent', null),
  ];
  const before = [
    ...[46, 47].map((peakC) => batch(`good at ${peakC}`, 'good', { peakC })),
    ...[64, 66, 68].map((peakC) => batch(`lost at ${peakC}`, 'lost', { peakC })),
  ];

  test('names the best, those judged like it, and those that nobody judged', () => {
    const found = bestOf(year, [...year, ...before]);
    expect([found.best?.id, idsOf(found.alike), idsOf(found.unjudged)]).toEqual(['first', ['second'], ['silent']]);
    expect(found.like).toHaveLength(4);
    expect(found.lower.map(({ verdict, batches }) => [verdict, batches.length])).toEqual([['lost', 4]]);
  });

  test('says by what they differ from those judged lower, what lies apart first, with its doubt', () => {
    // Of 4 and 4 the outermost differences hold the true one in 95 of 100 comparisons: 44 - 70 and 47 - 64.
    const first = bestOf(year, [...year, ...before]).lower[0]?.measures[0];
    expect(first).toMatchObject({ key: 'peakC', apart: true, counts: [4, 4], interval: [-26, -17] });
  });

  test('what was too hot and what was too cool are not laid into one', () => {
    const cool = [20, 21, 22, 23].map((peakC) => batch(`poor at ${peakC}`, 'poor', { peakC }));
    const lower = bestOf(year, [...year, ...before, ...cool]).lower;
    expect(lower.map(({ verdict, measures }) => [verdict, measures[0]?.key, measures[0]?.apart])).toEqual([
      ['poor', 'peakC', true],
      ['lost', 'peakC', true],
    ]);
  });

  test('with nobody’s word none is the best, however well it was measured', () => {
    const found = bestOf([batch('a', null, { comfortH: 240 })], before);
    expect([found.best, found.lower, idsOf(found.unjudged)]).toEqual([null, [], ['a']]);
  });

  test('where none was judged lower there is nothing to differ from', () => {
    expect(bestOf([batch('a', 'poor')], [batch('a', 'poor'), batch('b', 'good')])).toMatchObject({ lower: [] });
  });
});

test('lastYear(): the last one that is over and has batches, else the newest', () => {
  const of = (...years: number[]) => years.map((year) => ({ year }));
  expect(lastYear(of(2029, 2031, 2030), 2031)).toBe(2030);
  expect(lastYear(of(2031), 2031)).toBe(2031);
  expect(lastYear([], 2031)).toBeUndefined();
});
