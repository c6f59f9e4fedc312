import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DatesAsk, planDates } from '../../../core/plan/dates.ts';
import { plannedDateView } from '../../../server/services/views/plan-views.ts';
import { metric } from '../../../shared/measure.ts';
import { seed } from './arbitrary-asks.ts';

const startMs = Date.UTC(2031, 3, 5, 6);
const dayMs = 86_400_000;
const days = (ask: Omit<DatesAsk, 'startMs'>, kind: string) =>
  planDates({ startMs, ...ask })
    .filter((date) => date.kind === kind)
    .map(({ atMs }) => (atMs - startMs) / dayMs);
const ready = (ask: Omit<DatesAsk, 'startMs'>) => {
  const date = planDates({ startMs, ...ask }).find(({ kind }) => kind === 'ready');
  return [((date?.atMs ?? 0) - startMs) / dayMs, ((date?.untilMs ?? 0) - startMs) / dayMs];
};

describe('planDates()', () => {
  for (const [airC, from, to] of [
    [20, 5, 7],
    [19.9, 7, 10],
    [undefined, 5, 10],
  ] as const) {
    test(`bran with air at ${airC ?? 'nobody knows what'} °C: likely ready between day ${from} and day ${to}`, () => {
      expect(ready({ stage: 'bran', airC })).toEqual([from, to]);
    });
  }
  test('soil: likely ready between day 2 and day 7, as sources differ', () => {
    expect(ready({ stage: 'soil' })).toEqual([2, 7]);
    expect(planDates({ startMs, stage: 'soil' }).find(({ kind }) => kind === 'ready')?.origin.code).toBe(
      'origin.practice-days-differ',
    );
  });
  test('bran is turned every other day, the last time before it may be ready', () => {
    expect(days({ stage: 'bran', airC: 25 }, 'turn')).toEqual([2, 4]);
    expect(days({ stage: 'bran', airC: 10 }, 'turn')).toEqual([2, 4, 6]);
  });
  test('every other day it is looked at, and never after the window has closed', () => {
    expect(days({ stage: 'bran', airC: 25 }, 'check')).toEqual([1, 3, 5, 6]);
    expect(days({ stage: 'soil' }, 'check')).toEqual([1, 2, 4, 5, 6]);
  });
  test('a batch’s own length comes before the usual one', () => {
    const ask = { stage: 'soil', lengthH: { minH: 36, maxH: 60 } } as const;
    expect(ready(ask)).toEqual([1.5, 2.5]);
    expect(days(ask, 'turn')).toEqual([]);
  });
  test('tells when to turn in the degrees chosen', () => {
    const turn = (inFahrenheit: boolean) =>
      planDates({ startMs, stage: 'bran' })
        .map((date) => plannedDateView(date, { ...metric, temperature: inFahrenheit ? 'F' : 'C' }))
        .find(({ kind }) => kind === 'turn')?.says;
    expect([turn(false)?.includes('50 °C'), turn(true)?.includes('122 °F')]).toEqual([true, true]);
  });
  test('never says that it will be ready, and names an origin for each date', () => {
    for (const { kind, says, origin } of planDates({ startMs, stage: 'bran' }).map((date) =>
      plannedDateView(date, metric),
    )) {
      expect(origin).toContain('common practice');
      expect(says).not.toMatch(/\b(will be|is) ready\b/i);
      if (kind === 'ready') expect(says).toContain('smell and look');
    }
  });
  test('stands in order and after the start, whatever the length', () => {
    const lengths = fc.record({ minH: fc.integer({ min: 12, max: 400 }), more: fc.integer({ min: 0, max: 400 }) });
    fc.assert(
      fc.property(lengths, fc.constantFrom('bran' as const, 'soil' as const), ({ minH, more }, stage) => {
        const dates = planDates({ startMs, stage, lengthH: { minH, maxH: minH + more } });
        const instants = dates.map(({ atMs }) => atMs);
        expect(instants).toEqual([...instants].sort((one, other) => one - other));
        expect(Math.min(...instants)).toBeGreaterThan(startMs);
        expect(Math.max(...instants)).toBeLessThanOrEqual(startMs + (minH + more) * 3_600_000);
        expect(dates.filter(({ kind }) => kind === 'ready').length).toBe(1);
      }),
      { seed },
    );
  });
  test('plannedDateView() writes instants as the API carries them', () => {
    const [first] = planDates({ startMs, stage: 'bran' });
    expect(first && plannedDateView(first, metric)).toMatchObject({ at: '2031-04-06T06:00:00.000Z', until: null });
  });
});
