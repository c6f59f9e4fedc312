/** How the bed lies at an instant: its cover and depth after the acts so far. */
import type { Cover } from '../../shared/contracts/domain/batch.ts';
import type { PileSetup } from './pile-setup.ts';

export interface Bed {
  readonly cover: Cover;
  readonly depthM: number;
}

/** Beds thinner than this follow day and night [m]; our own choice, no source. */
export const shallowM = 0.2;

export function bedAt(setup: PileSetup, atMs: number): Bed {
  let cover = setup.recipe.cover;
  let depthM = setup.recipe.depthM;
  for (const act of setup.acts) {
    if (act.atMs > atMs) break;
    if (act.kind === 'covered') cover = cover === 'open' ? 'breathable' : 'closed';
    if (act.kind === 'uncovered') cover = 'open';
    // Without a depth given: a third off, a third on; common practice, no source.
    if (act.kind === 'spread') depthM = act.depthM ?? depthM * 0.7;
    if (act.kind === 'heaped') depthM = act.depthM ?? depthM * 1.3;
  }
  return { cover, depthM };
}
