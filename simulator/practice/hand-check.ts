/** What hand and nose find, without any probe. */
import { squeezeTexts } from '../../shared/messages/made/en/squeeze.ts';
import type { SqueezeFeel } from '../../shared/squeeze.ts';
import type { TruthRow } from './record.ts';

/** How bran of this moisture feels, on the scale of shared/squeeze.ts; the moistures that go with it are from memory. */
export function squeezed({ moistureFrac }: Pick<TruthRow, 'moistureFrac'>): SqueezeFeel {
  if (moistureFrac > 0.68) return 'pours';
  if (moistureFrac > 0.57) return 'drips';
  return moistureFrac > 0.48 ? 'holds' : 'crumbles';
}

/** @example squeezedWords('crumbles') // => "Crumbles when the hand opens: too dry." */
export function squeezedWords(feel: SqueezeFeel): string {
  const felt = squeezeTexts[`squeeze.feel.${feel}`];
  return `${felt.charAt(0).toUpperCase()}${felt.slice(1)}: ${squeezeTexts[`squeeze.bran.${feel}`]}.`;
}

export function lookedAndSmelled(row: TruthRow): string {
  const { leastOxygenFrac, aliveFrac, workFrac, coreC, airC } = row;
  const top = row.layers[0]?.moistureFrac ?? 1;
  const notes: string[] = [];
  if (leastOxygenFrac < 0.01) notes.push('Deep inside it smells sour and rotten: it has no air there.');
  else if (aliveFrac < 0.5) notes.push('It smells scorched, the white felt is gone and the crumbs are brown.');
  else if (workFrac > 0.85) notes.push('White all through, with an earthy smell.');
  else if (workFrac > 0.2) notes.push('White felt is spreading, and it smells sweet, like bread dough.');
  else notes.push('It smells of fresh bran, and nothing is white yet.');
  if (top < 0.42) notes.push('The upper hand-breadth is dry and dusty.');
  if (workFrac > 0.85 && coreC - airC < 5) notes.push('It is hardly warmer than the air.');
  return notes.join(' ');
}
