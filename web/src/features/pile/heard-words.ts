import type { PositionNow } from '../../../../shared/contracts/piles.ts';
import { ageWords } from '../../ui/format/age.ts';
import type { PileWords } from './use-pile-words.ts';

/** Whether and when a place was last heard of. @example "silent, last heard 3 h ago" */
export function heardWords({ at, byHand, silent }: PositionNow, nowMs: number, { text }: PileWords): string {
  const ageText = at ? ageWords(nowMs - Date.parse(at)) : '';
  const how = !at ? 'never' : byHand ? (silent ? 'handOld' : 'hand') : silent ? 'silent' : 'other';
  return text('page-pile.heard', { how, ageText });
}
