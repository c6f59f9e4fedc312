import type { HandPoint } from '../../../shared/contracts/series.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { EntryRecord } from '../../../shared/store/journal.ts';
import { isMeasured } from '../../pile/hand-readings.ts';

/** What was measured by hand among these entries, in their order, to be drawn as single points. */
export function handPoints(entries: readonly Pick<EntryRecord, 'entryId' | 'atMs' | 'what'>[]): HandPoint[] {
  return entries.flatMap(({ entryId, atMs, what }) =>
    isMeasured(what)
      ? [{ position: what.position, at: toInstant(atMs), temperatureC: what.temperatureC, entryId }]
      : [],
  );
}
