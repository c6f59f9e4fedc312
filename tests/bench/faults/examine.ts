/**
 * What stands in the stores after all faults, held against the truth: readings missing, there twice or other than made, per
 * fault; alarms missing, twice, and untrue.
 */
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { TruePile, TrueProbe } from './truth.ts';

export interface ReadingsVerdict {
  readonly lost: number[];
  readonly twice: number[];
}

export async function examineReadings(
  store: ReadingsStore,
  probes: readonly TrueProbe[],
  faultCount: number,
): Promise<ReadingsVerdict> {
  const lost = new Array<number>(faultCount).fill(0);
  const twice = new Array<number>(faultCount).fill(0);
  const count = (list: number[], during: number) => {
    list[during] = (list[during] ?? 0) + 1;
  };
  for (const { pile, probe, made } of probes) {
    const series = [{ site: pile.site, probe, quantity: 'temperature' as const }];
    const [firstMs, lastMs] = [made[0]?.atMs ?? 0, (made.at(-1)?.atMs ?? 0) + 1];
    const rows = await store.rows(series, 0, lastMs + 86_400_000, 10_000_000);
    const kept = new Map<number, number>();
    const trueAt = new Map(made.map((reading) => [reading.atMs, reading]));
    for (const { atMs, value } of rows) {
      const reading = trueAt.get(atMs);
      if (reading === undefined || kept.has(atMs) || reading.value !== value) count(twice, reading?.during ?? 0);
      kept.set(atMs, value);
    }
    for (const { atMs, during } of made) if (!kept.has(atMs)) count(lost, during);
    // Rollups are counted up beside the rows, so they could hold a reading twice that the rows hold once.
    const { columns } = await store.buckets(series, firstMs, lastMs, 1);
    const inBuckets = columns[0]?.count.reduce((sum, one) => sum + one, 0) ?? 0;
    for (let extra = rows.length; extra < inBuckets; extra += 1) count(twice, made.at(-1)?.during ?? 0);
    for (let short = inBuckets; short < rows.length; short += 1) count(lost, made.at(-1)?.during ?? 0);
  }
  return { lost, twice };
}

export interface NotifiedAlarm {
  readonly kind: string;
  readonly position: string | null;
  readonly steps: readonly { readonly arrow: string }[];
}

/** A pile that heated stays hot, so it is told of once; one that did not is never told of. */
export async function examineAlarms(
  piles: readonly TruePile[],
  alarmsOf: (pileId: string) => Promise<NotifiedAlarm[]>,
) {
  const verdict = { missing: 0, twice: 0, untrue: 0 };
  for (const { id, heatedAtMs } of piles) {
    const told = (await alarmsOf(id)).filter(({ kind }) => kind === 'overheating').length;
    if (heatedAtMs === null) verdict.untrue += told;
    else if (told === 0) verdict.missing += 1;
    else verdict.twice += told - 1;
  }
  return verdict;
}
