/**
 * A reading over the limit that jumped and cannot be believed yet. A probe that speaks every few minutes settles it by itself;
 * of any other a person is asked to look, for a pile may have heated in silence.
 */
import { type StageLimits, selfHeatingLadder } from '../../shared/stage.ts';
import { anythingAfterMs } from '../estimate/track.ts';
import { degrees, duration, fireCaution } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { perLimits } from './per-limits.ts';
import { isFailing } from './probe-faults.ts';
import type { PileSnapshot } from './snapshot.ts';

export function heatDoubtedFinding(pile: PileSnapshot): Finding {
  const { actC, lossC } = pile.setup.limits;
  const heat = pile.doubtedHeat;
  const known = pile.core !== null && pile.core.temperatureC !== null;
  if (heat === null && known) return noneOf(pile.setup.limits); // most looks
  const why = whyOf(pile.setup.limits);
  if (heat === null || !heat.asksForPerson) {
    return {
      kind: 'heat-doubted',
      position: null,
      evidence: known ? 'absent' : 'missing',
      severity: 'warning',
      seen:
        heat === null
          ? 'The core is not being measured.'
          : `The ${heat.position} probe reads ${degrees(heat.tempC)}, a jump from ${degrees(heat.beforeC)}; its next reading is waited for.`,
      todo: known ? 'Nothing.' : 'Measure the core by hand.',
      byMs: null,
      caution: null,
      why,
      explainedBy: null,
    };
  }
  const { position, tempC, beforeC, beforeMs } = heat;
  const track = pile.state.positions[position]?.temperature;
  const isFireHot = tempC >= selfHeatingLadder[0].fromC;
  return {
    kind: 'heat-doubted',
    position: null,
    evidence: 'present',
    severity: tempC >= lossC ? 'urgent' : 'warning',
    seen: `The ${position} probe reads ${degrees(tempC)}, a jump from ${degrees(beforeC)} ${duration(pile.nowMs - beforeMs)} ago, over the ${degrees(actC)} at which to act. Its next reading decides whether that is so.`,
    todo: isFireHot
      ? `Measure the ${position} by hand now, before you open anything.`
      : `Measure the ${position} by hand now: if it is that hot, turn it or spread it thinner.`,
    byMs: pile.nowMs,
    caution: isFireHot ? fireCaution : null,
    why,
    // A probe known to throw in wild values is told of as that.
    explainedBy: track != null && isFailing(track, pile.nowMs) ? 'probe-out' : null,
  };
}

const whyOf = perLimits(
  ({ actC }: StageLimits) =>
    `Present when a probe in the pile jumps over ${degrees(actC)} by more than a pile can warm in the time, until its next reading bears it out or takes it back. ` +
    `A probe that speaks every hour or oftener is waited for until its next reading is late. After ${duration(anythingAfterMs)} without a reading nothing is doubted: in that time anything may have become of the pile.`,
);

const noneOf = perLimits(
  (limits): Finding => ({
    kind: 'heat-doubted',
    position: null,
    evidence: 'absent',
    severity: 'warning',
    seen: 'No probe in the pile has jumped over the limit.',
    todo: 'Nothing.',
    byMs: null,
    caution: null,
    why: whyOf(limits),
    explainedBy: null,
  }),
);
