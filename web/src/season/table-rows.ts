/**
 * web/season/table-rows.ts: the rows of the table of measures: found, sorted, and the spread of each column.
 *
 * Takes:  batches as compared, the view.
 * Gives:  the same batches, fewer and in order; unknown figures last, whichever way it is sorted.
 */
import type { MeasureKey } from '../../../core/season/measure-keys.ts';
import type { ComparedBatch } from '../../../shared/api/seasons.ts';
import type { SortKey, Split, View } from './address.ts';

export function foundIn(batches: readonly ComparedBatch[], find: string): ComparedBatch[] {
  const wanted = find.trim().toLowerCase();
  return batches.filter(({ name, outcome, pileName }) =>
    [name, outcome ?? '', pileName].some((text) => text.toLowerCase().includes(wanted)),
  );
}

export function sorted(batches: readonly ComparedBatch[], sort: SortKey, order: View['order']): ComparedBatch[] {
  const sign = order === 'down' ? -1 : 1;
  return [...batches].sort((a, b) => {
    const [one, other] = [sortValue(a, sort), sortValue(b, sort)];
    if (one === null || other === null) return one === other ? 0 : one === null ? 1 : -1;
    if (typeof one === 'string' || typeof other === 'string') return sign * String(one).localeCompare(String(other));
    return sign * (one - other);
  });
}

function sortValue(batch: ComparedBatch, sort: SortKey): string | number | null {
  if (sort === 'name') return batch.name;
  if (sort === 'startedAt') return Date.parse(batch.startedAt);
  return batch.measures[sort];
}

export function columnOf(batches: readonly ComparedBatch[], key: MeasureKey): (number | null)[] {
  return batches.map(({ measures }) => measures[key]);
}

/** What a batch counts under when batches are parted in two. */
export function partOf(batch: ComparedBatch, split: Split): { id: string; name: string }[] {
  const as = (text: string) => [{ id: text, name: text }];
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
  }
}
