/** Why a batch counts as being in its phase. */
import { type PhaseReason, phaseReasonMessage, phaseReasons } from '../../../../core/estimate/phase.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { phaseTexts } from '../../../../shared/messages/made/en/phase.ts';
import { type Message, message, verbatim } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { isCoreMeasured } from './is-core-measured.ts';
import type { PileWords } from './use-pile-words.ts';

type Standing = Pick<PileSummary, 'batch' | 'positions' | 'tone'>;

/** @example "It is cooling. 71 % of the work this stage needs is done." Where no core is measured neither is known. */
export function standSentence({ batch, positions, tone }: Standing, { text }: PileWords): string {
  if (!batch) return '';
  if (tone === 'unknown') return text('page-pile.phase.not-judged');
  if (!isCoreMeasured({ positions })) return text('page-pile.phase.no-core');
  const phase = batch.phase === 'settled' ? 'other' : batch.phase;
  return text('page-pile.phase.stands', { phase, doneFrac: batch.progress / 100 });
}

const isReason = (text: string): text is PhaseReason => phaseReasons.some((reason) => reason === text);

/** A reason this page does not know yet is shown as it came. */
export function phaseMessage({ phase, phaseReason }: NonNullable<PileSummary['batch']>): Message {
  const reasonPart = isReason(phaseReason) ? phaseReasonMessage(phaseReason) : verbatim(phaseReason.replace(/\.$/, ''));
  return message('phase.counts-as', { phase, reasonPart });
}

export const renderPhase = rendererOf(phaseTexts);
