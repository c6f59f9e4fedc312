/** Which of many piles are shown, in which order, and the small curve beside each. */
import { describe, expect, test } from 'vitest';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import type { SeriesAnswer } from '../../shared/contracts/series.ts';
import { curveShape } from '../../web/src/features/home/curve-shape.ts';
import {
  chosenPiles,
  homeAddress,
  hottestC,
  readHomeView,
  stateOf,
  usualView,
} from '../../web/src/features/home/home-view.ts';

const at = '2026-06-10T08:00:00.000Z';
type Given = Partial<Omit<PileSummary, 'positions'>> & {
  readonly coreC?: number;
  readonly topC?: number;
  readonly silent?: boolean;
};

function pile(id: string, { coreC, topC, silent = false, ...given }: Given = {}): PileSummary {
  const now = (temperatureC: number | undefined) =>
    temperatureC === undefined ? undefined : { temperatureC, at, silent };
  const [core, top] = [now(coreC), now(topC)];
  return {
    id,
    name: id,
    site: 'yard',
    stage: 'bran',
    batch: { id: `b-${id}`, startedAt: at, progress: 10, phase: 'active', phaseReason: '' },
    positions: { ...(core && { core }), ...(top && { top }), air: { temperatureC: 60, at, silent: false } },
    condition: '',
    next: '',
    tone: 'calm',
    alarms: [],
    ...given,
  };
}
const idsOf = (piles: readonly PileSummary[]) => piles.map(({ id }) => id);
const siteName = (id: string) => ({ yard: 'Saltmere Yard', quay: 'Quay Sheds' })[id] ?? id;

describe('stateOf()', () => {
  test.each([
    ['danger', 'need'],
    ['act', 'need'],
    ['watch', 'watch'],
    ['unknown', 'watch'],
    ['calm', 'calm'],
  ] as const)('%s is %s', (tone, state) => {
    expect(stateOf(pile('a', { tone }))).toBe(state);
  });
  test('a calm place without a batch is empty, one that asks for somebody is not', () => {
    expect(stateOf(pile('a', { batch: null }))).toBe('empty');
    expect(stateOf(pile('a', { batch: null, tone: 'watch' }))).toBe('watch');
  });
});

describe('hottestC()', () => {
  test('the hottest place within counts, never the air', () => {
    expect(hottestC(pile('a', { coreC: 41, topC: 45 }))).toBe(45);
  });
  test('what a silent probe said last does not count', () => {
    expect(hottestC(pile('a', { coreC: 41, silent: true }))).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe('chosenPiles()', () => {
  const piles = [
    pile('bed 10', { coreC: 40 }),
    pile('bed 2', { coreC: 52, tone: 'act', stage: 'soil' }),
    pile('lean-to', {
      site: 'quay',
      tone: 'watch',
      batch: { ...pile('x').batch, startedAt: '2026-06-01T08:00:00.000Z' } as PileSummary['batch'],
    }),
  ];
  const choose = (change: Partial<typeof usualView>) =>
    idsOf(chosenPiles(piles, { ...usualView, ...change }, siteName));

  test('without a choice all are there, the most pressing first', () => {
    expect(choose({})).toEqual(['bed 2', 'lean-to', 'bed 10']);
  });
  test('the hottest first, those of which no heat is known last', () => {
    expect(choose({ order: 'heat' })).toEqual(['bed 2', 'bed 10', 'lean-to']);
  });
  test('the oldest first', () => {
    expect(choose({ order: 'age' })[0]).toBe('lean-to');
  });
  test('by name as people count: 2 before 10', () => {
    expect(choose({ order: 'name' })).toEqual(['bed 2', 'bed 10', 'lean-to']);
  });
  test.each([
    [{ find: 'BED' }, ['bed 2', 'bed 10']],
    [{ find: ' quay sh' }, ['lean-to']],
    [{ site: 'quay' }, ['lean-to']],
    [{ stage: 'soil' as const }, ['bed 2']],
    [{ state: 'calm' as const }, ['bed 10']],
    [{ find: 'bed', state: 'need' as const }, ['bed 2']],
    [{ find: 'nothing of this name' }, []],
  ])('%j leaves %j', (change, ids) => {
    expect(choose(change)).toEqual(ids);
  });
});

describe('address of the home page', () => {
  test('what is usual is not in it', () => {
    expect(homeAddress(usualView)).toBe('/');
  });
  test('a choice comes back from its address', () => {
    const view = { find: 'bed & co', site: 'quay', stage: 'soil', state: 'need', order: 'heat' } as const;
    expect(readHomeView(Object.fromEntries(new URL(homeAddress(view), 'http://here').searchParams))).toEqual(view);
  });
  test('what cannot be read is as not chosen', () => {
    expect(readHomeView({ order: 'sideways', stage: 'liquid', state: '7' })).toEqual(usualView);
  });
});

describe('curveShape()', () => {
  const hour = (h: number) => new Date(Date.UTC(2026, 5, 10, h)).toISOString();
  const bucket = (h: number, mean: number) => ({ at: hour(h), min: mean, mean, max: mean, count: 1 });
  const series = (temps: readonly [number, number][], forecast: SeriesAnswer['forecast'] = null): SeriesAnswer => ({
    from: hour(0),
    to: hour(10),
    bucketMs: 3_600_000,
    positions: { core: { temperatureC: temps.map(([h, tempC]) => bucket(h, tempC)) } },
    expected: { origin: '', messages: { origin: { code: 'verbatim', params: { text: '' } } }, points: [] },
    forecast,
  });

  test('nothing was measured: nothing is drawn', () => {
    expect(curveShape(series([]), 50)).toBeUndefined();
  });
  test('the lowest stands at the bottom and the hottest at the top', () => {
    expect(
      curveShape(
        series([
          [0, 20],
          [10, 40],
        ]),
        undefined,
      )?.past,
    ).toBe('M0 45L200 3');
  });
  test('the line breaks where nothing was measured for longer than half a day', () => {
    const far = {
      ...series([
        [0, 20],
        [20, 40],
      ]),
      to: hour(20),
    };
    expect(curveShape(far, undefined)?.past.match(/M/g)).toHaveLength(2);
  });
  test('a level pile is a level line at the bottom, not hills of noise', () => {
    const ys = curveShape(
      series([
        [0, 30],
        [5, 30.3],
        [10, 30],
      ]),
      undefined,
    )
      ?.past.match(/ (\d+(\.\d)?)/g)
      ?.map(Number);
    expect(Math.max(...(ys ?? [])) - Math.min(...(ys ?? []))).toBeLessThan(2);
  });
  test.each([
    [35, true],
    [34.9, false],
  ])('hottest %d °C, limit 50: the limit is drawn: %s', (highC, isDrawn) => {
    expect(
      curveShape(
        series([
          [0, 20],
          [10, highC + 0.05],
        ]),
        50,
      )?.limitY !== undefined,
    ).toBe(isDrawn);
  });
  test('the day ahead goes on from the last reading, and now stands between', () => {
    const points = [{ at: hour(34), p10: 40, p50: 44, p90: 48 }];
    const shape = curveShape(
      series(
        [
          [0, 20],
          [10, 40],
        ],
        { points },
      ),
      undefined,
    );
    expect(shape?.nowX).toBeCloseTo((10 / 34) * 200, 1);
    expect(shape?.ahead).toMatch(/^M58\.8 .*L200 3$/);
    expect(shape?.aheadC).toBe(44);
  });
});
