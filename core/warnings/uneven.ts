/**
 * One part of a working pile far from another. It never minds the sun on a skin: it is the day's mean that counts, and
 * a cool base under a warm core is how beds lie.
 */
import { msPerHour } from '../../shared/units.ts';
import { degrees, dustCaution, tenths } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { coreUnknownSays, type PileSnapshot } from './snapshot.ts';

/** Difference of the eased means of top and base [K], and how long it must last [h]; our own, no source. */
export const unevenK = 12;
const unevenAfterH = 12;
/** A taller heap is no bed: cool at its foot and weathered at its top by nature [m]. */
const tallestBedM = 0.6;

const whyWords = `Present when the day’s means of top and base lie more than ${degrees(unevenK)} apart for ${unevenAfterH} hours while the pile warms or works. Not for heaps over ${tallestBedM * 100} cm, which are cool at their foot by nature.`;

export function unevenFinding(pile: PileSnapshot): Finding {
  const { state } = pile;
  const top = state.positions.top;
  const base = state.positions.base;
  const known = pile.coreKnown && pile.positions.top?.silent === false && pile.positions.base?.silent === false;
  const tall = pile.setup.recipe.depthM > tallestBedM;
  const apartK = (top?.dayMeanC ?? 0) - (base?.dayMeanC ?? 0);
  const present =
    known && !tall && state.unevenH >= unevenAfterH && (state.phase === 'active' || state.phase === 'warming');
  const cool = apartK > 0 ? 'base' : 'top';
  return {
    kind: 'uneven',
    position: null,
    evidence: known ? (present ? 'present' : 'absent') : 'missing',
    severity: 'notice',
    seen: present
      ? `Over the day the top and the base lie ${tenths(Math.abs(apartK))} °C apart; the ${cool} is the cool one.`
      : known
        ? 'Top and base lie close enough together.'
        : pile.coreKnown
          ? 'Top and base are not both being measured.'
          : `${coreUnknownSays(pile).slice(0, -1)}, so whether the pile works is not known.`,
    todo: present ? `Turn it so that the ${cool} comes to the middle.` : 'Nothing.',
    byMs: present ? pile.nowMs + 24 * msPerHour : null,
    caution: present ? dustCaution : null,
    why: whyWords,
    explainedBy: pile.coreLost ?? (present ? state.unevenBy : null),
  };
}
