/**
 * The usual cautions at the moment somebody puts hands or nose to a pile. It never says that anything is safe; who
 * should not turn piles is common advice, and a doctor knows better.
 */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { type EntryKind, isActKind } from '../../../../shared/entry.ts';
import { type Message, message, paragraph } from '../../../../shared/messages/message.ts';
import { actCautions, handfulCaution, hottestC, ladderStep } from '../../ui/format/act-caution.ts';

const closeUp: readonly EntryKind[] = ['smell', 'readiness', 'growth'];
const handsIn: readonly EntryKind[] = ['squeeze', 'sample'];

export function entryCautions(kind: EntryKind, positions: PileSummary['positions'] | undefined): Message[] {
  const hottest = positions ? hottestC(positions) : null;
  if (isActKind(kind)) return actCautions(kind, hottest);
  const closed = leaveClosed(hottest);
  if (closeUp.includes(kind)) return [...closed, paragraph(message('caution.smelling'), message('caution.who'))];
  if (!handsIn.includes(kind)) return [];
  return closed.length > 0 ? closed : [handfulCaution(hottest)];
}

/** Nobody opens a pile that heats itself for the sake of a handful. */
function leaveClosed(hottest: number | null): Message[] {
  const step = ladderStep(hottest);
  return step === undefined ? [] : [message(`caution.closed.${step.number}`, { hottestC: step.hottestC })];
}
