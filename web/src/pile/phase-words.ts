/**
 * web/pile/phase-words.ts: why a batch counts as being in its phase.
 */
import { type PhaseReason, phaseReasonWords } from '../../../core/score/phase.ts';
import type { PileSummary } from '../../../shared/api/piles.ts';
import { phaseNames } from '../format/words.ts';

/** A reason this page does not know yet is shown as it came. */
export function phaseSentence({ phase, phaseReason }: NonNullable<PileSummary['batch']>): string {
  const reason =
    phaseReason in phaseReasonWords ? phaseReasonWords[phaseReason as PhaseReason] : phaseReason.replace(/\.$/, '');
  return `It counts as ${phaseNames[phase]}: ${reason}.`;
}
