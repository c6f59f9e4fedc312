/**
 * Heat that has passed and may have killed the culture. It does not end with the heat: only a nose and eyes can tell, so it
 * stands until a person has written down smell or pile.
 */
import { type Message, message } from '../../shared/messages/message.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { lossAfterH, type PastHeat } from '../estimate/heat-memory.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { hottestOver } from './overheating.ts';
import { perLimits } from './per-limits.ts';
import type { PileSnapshot } from './snapshot.ts';

export function heatDamageFinding(pile: PileSnapshot): Finding<'heat-damage'> {
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
        ? neverMeasured
        : present
          ? message('warnings.heat-damage.seen.may-be-lost', {
              position: worst.position,
              lossC,
              lossH: worst.unjudged.lossH,
              peakC: worst.unjudged.peakC,
            })
          : passed(worst, pile.setup.limits),
    todo: present ? smellAndLook : nothingToDo,
    byMs: present ? pile.nowMs + 24 * msPerHour : null,
    caution: present ? cautions.spores : null,
    why: whyOf(pile.setup.limits),
    // While it is that hot the overheating says so itself.
    explainedBy: hotNow ? 'overheating' : null,
  };
}

function passed({ position, lossH, peakC }: PastHeat, limits: StageLimits): Message {
  const { lossC } = limits;
  if (lossH >= lossAfterH) return message('phase.past-heat.judged', { position, lossC, lossH, peakC });
  return lossH > 0
    ? message('warnings.heat-damage.seen.short', { position, peakC, lossC, neededH: lossAfterH })
    : neverSeen(limits);
}

const neverMeasured = message('warnings.heat-damage.seen.not-measured');
const neverSeen = perLimits(({ lossC }) => message('warnings.heat-damage.seen.never', { lossC }));

/**
 * What to smell and look for. White threads and sweet or earthy smells: extension bulletins, second-hand. Grey, ash-dry patches
 * ("firefang") where heat-loving actinomycetes took over: common practice of compost and mushroom growers, no source.
 */
const smellAndLook = message('warnings.heat-damage.todo');

const whyOf = perLimits(({ lossC }) =>
  message('why.heat-damage', { lossC, lossH: lossAfterH, mouldsFromC: 57, mouldsToC: 59, sameAsC: 60 }),
);

const neverOf = perLimits(
  (limits): Finding<'heat-damage'> => ({
    kind: 'heat-damage',
    position: null,
    evidence: 'absent',
    severity: 'warning',
    seen: neverSeen(limits),
    todo: nothingToDo,
    byMs: null,
    caution: null,
    why: whyOf(limits),
    explainedBy: null,
  }),
);
