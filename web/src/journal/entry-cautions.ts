/**
 * web/journal/entry-cautions.ts: the usual cautions at the moment somebody puts hands or nose to a pile.
 *
 * Never:  says that anything is safe; who should not turn piles is common advice, and a doctor knows better.
 */
import type { PileSummary } from '../../../shared/api/piles.ts';
import { type EntryKind, isActKind } from '../../../shared/entry.ts';
import { actCautions, hottestC } from '../pile/act-caution.ts';

const closeUp: readonly EntryKind[] = ['smell', 'readiness', 'growth'];
const handsIn: readonly EntryKind[] = ['squeeze', 'sample'];

export function entryCautions(kind: EntryKind, positions: PileSummary['positions'] | undefined): string[] {
  const hottest = positions ? hottestC(positions) : null;
  if (isActKind(kind)) return actCautions(kind, hottest);
  if (closeUp.includes(kind)) {
    return [
      'Do not bend over mouldy material to smell it: take a handful, hold it an arm’s length off and fan the air towards you. Leave it to others with asthma, lung trouble or weak defences.',
    ];
  }
  if (handsIn.includes(kind)) return ['Wear gloves; wash hands before eating.'];
  return [];
}
