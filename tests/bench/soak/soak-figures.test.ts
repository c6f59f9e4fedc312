import { expect, test } from 'vitest';
import type { MemoryInside } from './memory-inside.ts';
import { snapshotOf, soakFigures } from './soak-figures.ts';

const inside = (heapUsedMb: number, nativeMb: number, heapLeastMb: number | null = heapUsedMb): MemoryInside => ({
  rss: (heapUsedMb + 20 + nativeMb + 50) * 1e6,
  anonymous: (heapUsedMb + 20 + nativeMb) * 1e6,
  heapTotal: (heapUsedMb + 20) * 1e6,
  heapUsed: heapUsedMb * 1e6,
  heapLeast: heapLeastMb === null ? null : heapLeastMb * 1e6,
  external: 5e6,
  arrayBuffers: 1e6,
});
const lagsMs = Array.from({ length: 101 }, (_, index) => index);

test('soakFigures() tells a heap that grows to the end from memory outside it that fills and then stands', () => {
  const looks = Array.from({ length: 60 }, (_, minute) =>
    snapshotOf(lagsMs, inside(100 + minute, Math.min(300, 200 + 5 * minute))),
  );
  expect(soakFigures(looks, [inside(100, 200), inside(160, 300)])).toMatchObject({
    heap_collected_mb_by_quarter: [100, 160],
    rss_collected_mb_by_quarter: [370, 530],
    late_heap_least_growth_mb_per_h: 60,
    late_heap_least_growth_mb_per_h_range: [60, 60],
    late_outside_heap_growth_mb_per_h: 0,
    late_rss_growth_mb_per_h: 60,
    lag_p50_ms: 50,
    lag_p99_ms: 99,
    lag_p99_growth_ms_per_h: 0,
  });
});

test('soakFigures() takes for a minute in which nothing was collected in full what was known before', () => {
  const looks = [inside(100, 200, null), inside(100, 200, 90), inside(180, 200, null), inside(100, 200, 92)].map(
    (one) => snapshotOf(lagsMs, one),
  );
  expect(soakFigures(looks, [inside(100, 200)]).heap_least_mb_by_min).toEqual([90, 90, 90, 92]);
});
