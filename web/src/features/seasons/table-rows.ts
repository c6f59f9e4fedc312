/** The rows of the table of measures: found, sorted, and the spread of each column. */
import { ranked } from '../../../../core/seasons/rank.ts';
import type { ComparedBatch } from '../../../../shared/contracts/seasons.ts';
import type { SortKey, View } from './address.ts';

export function foundIn(batches: readonly ComparedBatch[], find: string): ComparedBatch[] {
  const wanted = find.trim().toLowerCase();
  return batches.filter(({ name, outcome, verdict, pileName }) =>
    [name, outcome ?? '', verdict?.note ?? '', pileName].some((text) => text.toLowerCase().includes(wanted)),
  );
}

export function sorted(batches: readonly ComparedBatch[], sort: SortKey, order: View['order']): ComparedBatch[] {
  if (sort === 'verdict') return byVerdict(batches, order);
  const sign = order === 'down' ? -1 : 1;
  return [...batches].sort((a, b) => {
    const [one, other] = [sortValue(a, sort), sortValue(b, sort)];
    if (one === null || other === null) return one === other ? 0 : one === null ? 1 : -1;
    if (typeof one === 'string' || typeof other === 'string') return sign * String(one).localeCompare(String(other));
    return sign * (one - other);
  });
}

/** Those that nobody judged stand last whichever way it goes, the newest of them first. */
function byVerdict(batches: readonly ComparedBatch[], order: View['order']): ComparedBatch[] {
  const judged = ranked(batches);
  const others = sorted(
    batches.filter(({ verdict }) => verdict === null),
    'startedAt',
    'down',
  );
  return [...(order === 'down' ? judged : judged.reverse()), ...others];
}

function sortValue(batch: ComparedBatch, sort: Exclude<SortKey, 'verdict'>): string | number | null {
  if (sort === 'name') return batch.name;
  if (sort === 'startedAt') return Date.parse(batch.startedAt);
  return batch.measures[sort];
}
