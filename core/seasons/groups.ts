/**
 * Batches parted into groups by what they have in common, and two groups compared. It never puts a batch into one group
 * only: one of two starters counts under both.
 */
import type { ComparedBatch, Split } from '../../shared/contracts/seasons.ts';
import { type Difference, difference } from './difference.ts';
import { type MeasureKey, measureKeys } from './measure-keys.ts';

export interface Part {
  readonly id: string;
  readonly name: string;
}

export interface Group extends Part {
  readonly batches: readonly ComparedBatch[];
}

/** Every value of a split among these batches, the largest group first. */
export function groupsBy(batches: readonly ComparedBatch[], split: Split): Group[] {
  return groupsOf(batches, (batch) => partOf(batch, split));
}

/** @param partsOf What a batch counts under. @returns The largest group first. */
export function groupsOf(
  batches: readonly ComparedBatch[],
  partsOf: (batch: ComparedBatch) => readonly Part[],
): Group[] {
  const found = new Map<string, { id: string; name: string; batches: ComparedBatch[] }>();
  for (const batch of batches) {
    for (const { id, name } of partsOf(batch)) {
      const group = found.get(id) ?? { id, name, batches: [] };
      group.batches.push(batch);
      found.set(id, group);
    }
  }
  return [...found.values()].sort((a, b) => b.batches.length - a.batches.length);
}

/** The two asked for, else the largest; undefined when there are not two. */
export function pairOf(
  groups: readonly Group[],
  oneId: string,
  otherId: string,
): [one: Group, other: Group] | undefined {
  const one = groups.find(({ id }) => id === oneId) ?? groups[0];
  const rest = groups.filter((group) => group !== one);
  const other = rest.find(({ id }) => id === otherId) ?? rest[0];
  return one && other ? [one, other] : undefined;
}

export interface MeasureApart extends Difference {
  readonly key: MeasureKey;
  /** The interval lies wholly above or below nothing. */
  readonly apart: boolean;
}

export function compareGroups(one: Group, other: Group): MeasureApart[] {
  return measureKeys.map((key) => {
    const found = difference(columnOf(one.batches, key), columnOf(other.batches, key));
    const [low, high] = found.interval ?? [0, 0];
    return { key, ...found, apart: low > 0 || high < 0 };
  });
}

export function columnOf(batches: readonly ComparedBatch[], key: MeasureKey): (number | null)[] {
  return batches.map(({ measures }) => measures[key]);
}

/** What a batch counts under; nothing where that was not given. */
export function partOf(batch: ComparedBatch, split: Split): readonly Part[] {
  const as = (text: string | null) => (text === null ? [] : [{ id: text, name: text }]);
  switch (split) {
    case 'material':
      return as(batch.material);
    case 'cover':
      return as(batch.cover);
    case 'stage':
      return as(batch.stage);
    case 'site':
      return [{ id: batch.site, name: batch.siteName }];
    case 'year':
      return as(String(batch.year));
    case 'season':
      return [batch.season];
    case 'starter':
      return batch.starters;
    case 'verdict':
      return as(batch.verdict?.verdict ?? null);
  }
}
