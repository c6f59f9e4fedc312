/** Why a batch counts as being in its phase. */
import { type PhaseReason, phaseReasonMessage, phaseReasons } from '../../../../core/estimate/phase.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { phaseTexts } from '../../../../shared/messages/made/en/phase.ts';
import { type Message, message, verbatim } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { phaseNames } from '../../ui/format/words.ts';
import { isCoreMeasured } from './is-core-measured.ts';

/** @example "It is cooling. 71 % of the work this stage needs is done." Where no core is measured neither is known. */
export function standSentence({ batch, positions }: Pick<PileSummary, 'batch' | 'positions'>): string {
  if (!batch) return '';
  if (!isCoreMeasured({ positions })) return 'How far its work has come is not known, as its core is not measured.';
  return `It is ${phaseNames[batch.phase]}. ${Math.round(batch.progress)} % of the work this stage needs is done.`;
}

const isReason = (text: string): text is PhaseReason => phaseReasons.some((reason) => reason === text);

/** A reason this page does not know yet is shown as it came. */
export function phaseMessage({ phase, phaseReason }: NonNullable<PileSummary['batch']>): Message {
  const reasonPart = isReason(phaseReason) ? phaseReasonMessage(phaseReason) : verbatim(phaseReason.replace(/\.$/, ''));
  return message('phase.counts-as', { phase, reasonPart });
}

export const renderPhase = rendererOf(phaseTexts);
