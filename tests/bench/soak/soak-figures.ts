/**
 * Whether memory and lag grew in a soak, and what the growth is made of: of every part how it ended, its growth an hour over
 * all, and over the second half with its range.
 */
import { robustGrowth } from './growth.ts';
import type { MemoryInside } from './memory-inside.ts';

/** [MB], [ms]. */
export interface SoakLook {
  readonly p50Ms: number;
  readonly p99Ms: number;
  readonly rssMb: number;
  /** What of it is neither program files nor a database read as a file. */
  readonly anonymousMb: number;
  /** What JavaScript has in use at its least in that minute; NaN when nothing was collected in full. */
  readonly heapLeastMb: number;
  /** What V8 holds for it. */
  readonly heapTotalMb: number;
  readonly externalMb: number;
  readonly arrayBuffersMb: number;
  /** Anonymous memory that is not V8's: pages that SQLite keeps, threads, room between what was given back. */
  readonly outsideHeapMb: number;
}

const minutesPerHour = 60;
const mb = (bytes: number | null) => (bytes === null ? Number.NaN : Math.round(bytes / 1e5) / 10);
const tenth = (value: number) => Math.round(value * 10) / 10;

/** @param lagsMs Shortest first. */
export function snapshotOf(lagsMs: readonly number[], memory: MemoryInside): SoakLook {
  const at = (share: number) => lagsMs[Math.floor(share * (lagsMs.length - 1))] ?? Number.NaN;
  return {
    p50Ms: at(0.5),
    p99Ms: at(0.99),
    rssMb: mb(memory.rss),
    anonymousMb: mb(memory.anonymous),
    heapLeastMb: mb(memory.heapLeast),
    heapTotalMb: mb(memory.heapTotal),
    externalMb: mb(memory.external),
    arrayBuffersMb: mb(memory.arrayBuffers),
    outsideHeapMb: mb(memory.anonymous - memory.heapTotal),
  };
}

const parts = {
  rss_mb: 'rssMb',
  anonymous_mb: 'anonymousMb',
  heap_least_mb: 'heapLeastMb',
  heap_total_mb: 'heapTotalMb',
  external_mb: 'externalMb',
  array_buffers_mb: 'arrayBuffersMb',
  outside_heap_mb: 'outsideHeapMb',
  lag_p50_ms: 'p50Ms',
  lag_p99_ms: 'p99Ms',
} as const satisfies Record<string, keyof SoakLook>;

export function soakFigures(
  looks: readonly SoakLook[],
  collected: readonly MemoryInside[],
): Record<string, number | readonly number[]> {
  const figures: Record<string, number | readonly number[]> = {
    heap_collected_mb_by_quarter: collected.map(({ heapUsed }) => mb(heapUsed)),
    rss_collected_mb_by_quarter: collected.map(({ rss }) => mb(rss)),
  };
  for (const [name, part] of Object.entries(parts)) {
    const values = known(looks.map((look) => look[part]));
    const all = robustGrowth(values);
    const late = robustGrowth(values.slice(Math.floor(values.length / 2)));
    const growth = name.replace(/_(mb|ms)$/, '_growth_$1_per_h');
    figures[name] = values.at(-1) ?? Number.NaN;
    figures[growth] = tenth(all.perStep * minutesPerHour);
    figures[`late_${growth}`] = tenth(late.perStep * minutesPerHour);
    figures[`late_${growth}_range`] = [late.fromPerStep, late.toPerStep].map((step) => tenth(step * minutesPerHour));
    figures[`${name}_by_min`] = values;
  }
  return figures;
}

/** A minute without a value has that of the minute before; the first have the first there is. */
function known(values: readonly number[]): number[] {
  let last = values.find((value) => !Number.isNaN(value)) ?? Number.NaN;
  return values.map((value) => {
    if (!Number.isNaN(value)) last = value;
    return last;
  });
}
