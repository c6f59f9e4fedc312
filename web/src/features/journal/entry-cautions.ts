/**
 * The usual cautions at the moment somebody puts hands or nose to a pile. It never says that anything is safe; who
 * should not turn piles is common advice, and a doctor knows better.
 */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { type EntryKind, isActKind } from '../../../../shared/entry.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { selfHeatingLadder } from '../../../../shared/stage.ts';
import { actCautions, handfulCautions, hottestC } from '../../ui/format/act-caution.ts';

const closeUp: readonly EntryKind[] = ['smell', 'readiness', 'growth'];
const handsIn: readonly EntryKind[] = ['squeeze', 'sample'];

export function entryCautions(kind: EntryKind, positions: PileSummary['positions'] | undefined): string[] {
  const hottest = positions ? hottestC(positions) : null;
  if (isActKind(kind)) return actCautions(kind, hottest);
  const closed = leaveClosed(hottest);
  if (closeUp.includes(kind)) {
    return [...closed, `${cautionTexts['caution.smelling']} ${cautionTexts['caution.who']}`];
  }
  if (handsIn.includes(kind)) {
    if (closed.length > 0) return closed;
    return handfulCautions(hottest);
  }
  return [];
}

/** Nobody opens a pile that heats itself for the sake of a handful. */
function leaveClosed(hottest: number | null): string[] {
  const rung = selfHeatingLadder.findLast(({ fromC }) => hottest !== null && hottest >= fromC);
  if (rung === undefined || hottest === null) return [];
  return [`At ${Math.floor(hottest)} °C do not open it for this: ${rung.todo}. Write down only what you found before.`];
}
