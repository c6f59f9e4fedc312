/** Core and top probe in each other's place: a cause of its own for a pile that seems too cold or stalled. */
import { message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import { swappedAfterH, warmerK } from '../estimate/swapped.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { coreUnknownSays, type PileSnapshot } from './snapshot.ts';

export function probesSwappedFinding(pile: PileSnapshot): Finding<'probes-swapped'> {
  const { top, air } = pile.positions;
  const isKnown = pile.coreKnown && top?.silent === false && air?.silent === false;
  const isPresent = isKnown && pile.state.swapped.forH >= swappedAfterH;
  return {
    kind: 'probes-swapped',
    position: null,
    evidence: isKnown ? (isPresent ? 'present' : 'absent') : 'missing',
    severity: 'warning',
    seen: !pile.coreKnown ? coreUnknownSays(pile) : isPresent ? swapped : isKnown ? right : notAll,
    todo: isPresent ? compare : nothingToDo,
    byMs: isPresent ? pile.nowMs + 12 * msPerHour : null,
    caution: isPresent ? cautions.unknownHeat : null,
    why,
    explainedBy: pile.coreLost,
  };
}

const swapped = message('warnings.probes-swapped.seen.swapped');
const right = message('warnings.probes-swapped.seen.none');
const notAll = message('warnings.probes-swapped.seen.not-all');
const compare = message('warnings.probes-swapped.todo');
const why = message('why.probes-swapped', { swappedH: swappedAfterH, warmerK });
