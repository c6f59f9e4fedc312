import { clockAheadMs } from '../../shared/clock-ahead.ts';
import type { JudgeState } from '../estimate/state.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';

/**
 * Whether anything of this bed stands behind its water balance: moisture given as it was laid, its core's heat, a squeeze or a weighed
 * sample. Else the balance stands where every such bed begins, and is no figure of this one.
 */
export function isWaterFounded(state: JudgeState, { recipe, noted = [] }: PileSetup, nowMs: number): boolean {
  if (recipe.moistureFrac !== undefined || state.phase.startC !== null) return true;
  return noted.some(
    ({ atMs, what }) =>
      atMs <= nowMs + clockAheadMs && (what.kind === 'squeeze' || (what.kind === 'sample' && what.dryG !== undefined)),
  );
}
