/**
 * Heat that has passed and may have killed the culture. It does not end with the heat: only a nose and eyes can tell, so it
 * stands until a person has written down smell or pile.
 */
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { lossAfterH, type PastHeat } from '../estimate/heat-memory.ts';
import { heatDamageSigns, hoursLong } from '../words/heat-damage-words.ts';
import { degrees, dustCaution } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { hottestOver } from './overheating.ts';
import { perLimits } from './per-limits.ts';
import type { PileSnapshot } from './snapshot.ts';

export function heatDamageFinding(pile: PileSnapshot): Finding {
  const { actC, lossC } = pile.setup.limits;
  const worst = pile.worstHeat;
  const known = pile.state.positions.core?.heat != null;
  if (known && worst?.lossH === 0) return neverOf(pile.setup.limits); // most looks
  const present = worst?.unjudged != null;
  const hotNow = present && (hottestOver(pile)?.tempC ?? actC) >= lossC;
  return {
    kind: 'heat-damage',
    position: null,
    // Of a core that nobody ever measured nobody knows.
    evidence: present ? 'present' : known ? 'absent' : 'missing',
    severity: 'warning',
    seen:
      worst === null || (!present && !known)
        ? 'The core was never measured.'
        : present
          ? `The ${worst.position} lay at ${degrees(lossC)} or more for ${hoursLong(worst.unjudged.lossH)}, up to ${degrees(worst.unjudged.peakC)}: the culture there may be lost.`
          : passed(worst, pile.setup.limits),
    todo: present
      ? `Once it has cooled, open it in several places, smell it and look at it, and write it into the journal. ${heatDamageSigns} Do not use it as a starter before that.`
      : 'Nothing.',
    byMs: present ? pile.nowMs + 24 * msPerHour : null,
    caution: present ? dustCaution : null,
    why: whyOf(pile.setup.limits),
    // While it is that hot the overheating says so itself.
    explainedBy: hotNow ? 'overheating' : null,
  };
}

function passed({ position, lossH, peakC }: PastHeat, limits: StageLimits): string {
  const { lossC } = limits;
  if (lossH >= lossAfterH)
    return `The ${position} lay at ${degrees(lossC)} or more for ${hoursLong(lossH)}, up to ${degrees(peakC)}; somebody has smelt or looked at it since.`;
  return lossH > 0
    ? `The ${position} came to ${degrees(peakC)}, at ${degrees(lossC)} or more for less than ${lossAfterH} hours.`
    : neverWords(limits);
}

const neverWords = perLimits(
  ({ lossC }) => `No place in the pile came to ${degrees(lossC)}, as far as it was measured.`,
);

const whyOf = perLimits(
  ({ lossC }) =>
    `Present once a place in the pile lay at or above ${degrees(lossC)} for ${lossAfterH} hours in all, until a person writes down its smell, its growth or both. ` +
    'Mushroom growers kill moulds in compost in 4 to 6 hours at 57 to 59 °C, which is about two hours at 60 °C. Between two readings a straight line is taken, between readings more than a day apart nothing.',
);

const neverOf = perLimits(
  (limits): Finding => ({
    kind: 'heat-damage',
    position: null,
    evidence: 'absent',
    severity: 'warning',
    seen: neverWords(limits),
    todo: 'Nothing.',
    byMs: null,
    caution: null,
    why: whyOf(limits),
    explainedBy: null,
  }),
);
