/** How the bed lies at an instant: its cover and depth after the acts so far. */
import type { Act, Cover } from '../../shared/contracts/domain/batch.ts';
import type { PileSetup } from './pile-setup.ts';

export interface Bed {
  readonly cover: Cover;
  readonly depthM: number;
}

/** Beds thinner than this follow day and night [m]; our own choice, no source. */
export const shallowM = 0.2;

/** Depth after a spreading or heaping that nobody measured, against before: a third off, a third on [-]; common practice, no source. */
const spreadDepthShare = 0.7;
const heapedDepthShare = 1.3;

/** How a bed lies after an act. What is covered already is closed by a second cover. */
export function bedAfter(bed: Bed, act: Act): Bed {
  switch (act.kind) {
    case 'covered':
      return { ...bed, cover: bed.cover === 'open' ? 'breathable' : 'closed' };
    case 'uncovered':
      return { ...bed, cover: 'open' };
    case 'spread':
      return { ...bed, depthM: act.depthM ?? bed.depthM * spreadDepthShare };
    case 'heaped':
      return { ...bed, depthM: act.depthM ?? bed.depthM * heapedDepthShare };
    default:
      return bed;
  }
}

export function bedAt({ recipe, acts }: PileSetup, atMs: number): Bed {
  let bed: Bed = { cover: recipe.cover, depthM: recipe.depthM };
  for (const act of acts) {
    if (act.atMs > atMs) break;
    bed = bedAfter(bed, act);
  }
  return bed;
}
