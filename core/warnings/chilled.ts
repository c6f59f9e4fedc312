/** Too cold for the culture to work. */
import { message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import { chilledC } from '../estimate/cold.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { coreNow, coreUnknownSays, type PileSnapshot } from './snapshot.ts';

/** So many hours in a row, so that one cold night is none [h]; our own choice, no source. */
export const chilledAfterH = 6;

const why = message('why.chilled', { chilledC, chilledH: chilledAfterH });
const notCold = message('warnings.chilled.seen.none');
const todo = message('warnings.chilled.todo');

export function chilledFinding(pile: PileSnapshot): Finding<'chilled'> {
  const { state } = pile;
  const present = pile.coreKnown && state.cold.forH >= chilledAfterH && state.phase.now !== 'settled';
  return {
    kind: 'chilled',
    position: null,
    evidence: pile.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: 'warning',
    seen: !pile.coreKnown
      ? coreUnknownSays(pile)
      : present
        ? message('warnings.chilled.seen.cold', { chilledC, coldH: state.cold.forH, corePart: coreNow(pile) })
        : notCold,
    todo: present ? todo : nothingToDo,
    byMs: present ? pile.nowMs + 12 * msPerHour : null,
    caution: null,
    why,
    explainedBy: pile.coreLost,
  };
}
