/** Which curves of past batches have one colour, and the middle of each group. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { AgedCurve, ComparedBatch } from '../../shared/contracts/seasons.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { curveGroups, middleCurve, tellingFact } from '../../web/src/features/seasons/curve-groups.ts';

type Given = Partial<Pick<ComparedBatch, 'material' | 'cover' | 'site' | 'year' | 'starters' | 'ending'>>;
const batch = (id: string, given: Given = {}) =>
  ({
    id,
    material: null,
    cover: null,
    site: 'yard',
    siteName: 'Yard',
    year: 2030,
    season: { id: '2030-summer', name: 'Summer 2030' },
    starters: [],
    verdict: null,
    ending: 'finished',
    stage: 'bran',
    ...given,
  }) as unknown as ComparedBatch;
const curve = (id: string, coreC: readonly (number | null)[], warmingAfterH: number | null = 0): AgedCurve => ({
  id,
  warmingAfterH,
  coreC: [...coreC],
  airC: coreC.map(() => 20),
});

describe('curveGroups()', () => {
  const batches = [
    batch('a', { material: 'wheat-bran' }),
    batch('b', { material: 'rice-bran' }),
    batch('c', { material: 'rice-bran' }),
    batch('d'),
  ];
  test('the largest comes first, and a batch of which it is not known is in none', () => {
    expect(curveGroups(batches, 'material', plainEnglish).map(({ id, ids }) => [id, ids])).toEqual([
      ['rice-bran', ['b', 'c']],
      ['wheat-bran', ['a']],
    ]);
  });
  test('there are no more groups than there are ways to draw them', () => {
    const years = Array.from({ length: 9 }, (_, i) => batch(`y${i}`, { year: 2020 + i }));
    expect(curveGroups(years, 'year', plainEnglish)).toHaveLength(6);
  });
});

describe('tellingFact()', () => {
  test('what parts the batches into two groups of two or more is taken', () => {
    const years = [2029, 2029, 2030, 2030].map((year, i) => batch(`${i}`, { year }));
    expect(tellingFact(years)).toBe('year');
  });
  test('a group of one cannot be compared', () => {
    expect(tellingFact([2029, 2030, 2030].map((year, i) => batch(`${i}`, { year })))).toBeUndefined();
  });
  test('the material is told before the year', () => {
    const both = [0, 1, 2, 3].map((i) =>
      batch(`${i}`, { year: 2029 + (i % 2), material: i < 2 ? 'wheat-bran' : 'rice-bran' }),
    );
    expect(tellingFact(both)).toBe('material');
  });
});

describe('middleCurve()', () => {
  test('it is the median at each hour', () => {
    const middle = middleCurve('m', [curve('a', [20, 30]), curve('b', [22, 50]), curve('c', [27, 31])], 'age');
    expect(middle?.coreC).toEqual([22, 31]);
  });
  test('between two it is their mean', () => {
    expect(middleCurve('m', [curve('a', [20]), curve('b', [30])], 'age')?.coreC).toEqual([25]);
  });
  test('where fewer than half have a value there is none', () => {
    const middle = middleCurve('m', [curve('a', [20, 40]), curve('b', [20]), curve('c', [20])], 'age');
    expect(middle?.coreC).toEqual([20, null]);
  });
  test('by warming, curves stand by the hour in which each began to warm', () => {
    const middle = middleCurve('m', [curve('a', [20, 20, 30], 1), curve('b', [20, 40], 0)], 'warming');
    expect(middle).toMatchObject({ warmingAfterH: 1, coreC: [20, 20, 35] });
  });
  test('without a curve that warmed there is no middle by warming', () => {
    expect(middleCurve('m', [curve('a', [20], null)], 'warming')).toBeUndefined();
  });
  test('it lies between the lowest and the highest at every hour', () => {
    const course = fc.array(fc.double({ min: -10, max: 80, noNaN: true }), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(fc.array(course, { minLength: 1, maxLength: 7 }), (courses) => {
        const middle = middleCurve(
          'm',
          courses.map((coreC, i) => curve(`${i}`, coreC)),
          'age',
        );
        for (const [hour, tempC] of (middle?.coreC ?? []).entries()) {
          const at = courses.map((coreC) => coreC[hour] ?? 0);
          expect(tempC).toBeGreaterThanOrEqual(Math.min(...at));
          expect(tempC).toBeLessThanOrEqual(Math.max(...at));
        }
      }),
    );
  });
});
