/** What hand and nose find, without any probe. */
import type { TruthRow } from './record.ts';

/**
 * Squeeze test: two or three drops is right, a stream too wet, crumbling too dry (community composting practice; the
 * moistures that go with it are from memory).
 */
export function squeezed({ moistureFrac }: TruthRow): string {
  if (moistureFrac > 0.68) return 'Water runs out between the fingers: it is too wet.';
  if (moistureFrac > 0.57)
    return 'Two or three drops come out, and the ball holds together: it is as damp as it should be.';
  if (moistureFrac > 0.48) return 'No drop comes out, but the ball holds together: it is on the dry side.';
  return 'It crumbles when the hand opens: it is too dry.';
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
