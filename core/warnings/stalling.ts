/** A batch that should be working and is not. */
import { msPerHour } from '../../shared/units.ts';
import type { StallWhy } from '../estimate/state.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { dustCaution, tenths } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { coreNow, coreUnknownSays, type PileSnapshot } from './snapshot.ts';
import { capital } from './spoken-value.ts';
import { actExplainsH, slowPerDay, stallAfterH, stallStands, standingPerDay, warmStallAfterH } from './stall-sight.ts';

const seenWords: Record<StallWhy, (coreIs: string) => string> = {
  'never-warmed': (core) => `It has not warmed: ${core}.`,
  'below-what-it-should': (core) => `${capital(core)} and no longer rising, below what such a pile should show by now.`,
  'warm-but-idle': (core) =>
    `It stays warm but hardly makes heat any more: ${core}; the bed keeps it warm, and most of its food is left.`,
  'went-out': (core) => `It warmed, then lost more than half of its heat before its work was done; ${core}.`,
};

const whyWords =
  `Present when for ${stallAfterH} hours the core has not been rising by itself and the bed burns less than ${tenths(100 * standingPerDay)} % of its food a day, ` +
  `or less than ${tenths(100 * slowPerDay)} % and lies below the expected band; ${warmStallAfterH} hours while the core is still comfortable, for a bed may rest between two humps. ` +
  'What it burns is reckoned from the heat it must be making to stay as warm as it is; the limits are our own, from simulated piles. ' +
  `Not judged in its first day, nor once it has burnt the usual share of its food, nor within ${actExplainsH} hours of a turn, spreading or watering.`;

export function stallingFinding(pile: PileSnapshot): Finding {
  const { state, setup } = pile;
  const why = state.stallWhy;
  const present = pile.coreKnown && why !== null && stallStands(state);
  const dry = wetBasis(state.waterKgKg) < setup.limits.moistureMinFrac;
  return {
    kind: 'stalling',
    position: null,
    evidence: pile.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: 'warning',
    seen: !pile.coreKnown
      ? coreUnknownSays(pile)
      : present
        ? seenWords[why](coreNow(pile))
        : 'Nothing points to a stall.',
    todo: present
      ? dry
        ? 'It looks too dry to work: squeeze a handful, and if it crumbles, water it, mix, and cover it warmly.'
        : why === 'warm-but-idle'
          ? 'It is probably short of air: turn it loosely, and smell a handful. Sour and dripping: mix in dry bran.'
          : 'Squeeze and smell a handful. Dry: water it. Sour and dripping: turn it and add dry bran. Neither: heap it deeper and cover it warmly.'
      : pile.coreKnown
        ? 'Nothing.'
        : 'Measure the core by hand.',
    byMs: present ? pile.nowMs + 12 * msPerHour : null,
    caution: present ? dustCaution : null,
    why: whyWords,
    explainedBy: pile.coreLost,
  };
}
