/** Why a batch counts as being in its phase. */
import { type PhaseReason, phaseReasonWords } from '../../../../core/estimate/phase.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { phaseNames } from '../../ui/format/words.ts';

/** @example "It is cooling. 71 % of the work this stage needs is done." Where no core is measured neither can be told. */
export function standSentence({ batch, positions }: Pick<PileSummary, 'batch' | 'positions'>): string {
  if (!batch) return '';
  if (!isCoreMeasured({ positions })) return 'How far its work has come is not known, as its core is not measured.';
  return `It is ${phaseNames[batch.phase]}. ${Math.round(batch.progress)} % of the work this stage needs is done.`;
}

/** Whether a probe gives the heat of the core, silent just now or not. */
export function isCoreMeasured({ positions }: Pick<PileSummary, 'positions'>): boolean {
  return positions.core?.temperatureC !== undefined;
}

/** A reason this page does not know yet is shown as it came. */
export function phaseSentence({ phase, phaseReason }: NonNullable<PileSummary['batch']>): string {
  const reason =
    phaseReason in phaseReasonWords ? phaseReasonWords[phaseReason as PhaseReason] : phaseReason.replace(/\.$/, '');
  return `It counts as ${phaseNames[phase]}: ${reason}.`;
}
