/** Too cold for the culture to work. */
import { msPerHour } from '../../shared/units.ts';
import { degrees } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { coreNow, coreUnknownSays, type PileSnapshot } from './snapshot.ts';

/** Below this mesophilic growth is a quarter and less of its best (Rosso 1993 with the set of S. cerevisiae) [°C]. */
export const chilledC = 12;
export const chilledDeadbandK = 1.5;
export const chilledAfterH = 6;

const whyWords = `Present when the core is below ${degrees(chilledC)} for ${chilledAfterH} hours: there the culture grows at a quarter of its best or less. Not for a settled batch.`;

export function chilledFinding(pile: PileSnapshot): Finding {
  const { state } = pile;
  const present = pile.coreKnown && state.coldH >= chilledAfterH && state.phase !== 'settled';
  return {
    kind: 'chilled',
    position: null,
    evidence: pile.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: 'warning',
    seen: !pile.coreKnown
      ? coreUnknownSays(pile)
      : present
        ? `The core has been below ${degrees(chilledC)} for ${state.coldH} hours: ${coreNow(pile)}.`
        : 'The core is not too cold.',
    todo: present ? 'Heap it deeper, put mats or straw over it, and keep the wind off.' : 'Nothing.',
    byMs: present ? pile.nowMs + 12 * msPerHour : null,
    caution: null,
    why: whyWords,
    explainedBy: pile.coreLost,
  };
}
