/**
 * A reading over the limit that jumped and cannot be believed yet. A probe that speaks every few minutes settles it by itself;
 * of any other a person is asked to look, for a pile may have heated in silence.
 */
import { message } from '../../shared/messages/message.ts';
import { type StageLimits, selfHeatingLadder } from '../../shared/stage.ts';
import { meanwhileKPerH } from '../estimate/track.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { perLimits } from './per-limits.ts';
import { isFailing } from './probe-faults.ts';
import { measureCore, type PileSnapshot } from './snapshot.ts';

export function heatDoubtedFinding(pile: PileSnapshot): Finding<'heat-doubted'> {
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
          ? notMeasured
          : message('warnings.heat-doubted.seen.waited-for', {
              position: heat.position,
              tempC: heat.tempC,
              beforeC: heat.beforeC,
            }),
      todo: known ? nothingToDo : measureCore,
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
    seen: message('warnings.heat-doubted.seen.jumped', {
      position,
      tempC,
      beforeC,
      agoMs: pile.nowMs - beforeMs,
      limitC: actC,
    }),
    todo: isFireHot
      ? message('warnings.heat-doubted.todo.closed', { position })
      : message('warnings.heat-doubted.todo.turn', { position }),
    byMs: pile.nowMs,
    caution: isFireHot ? cautions.fire : null,
    why,
    // A probe known to throw in wild values is reported as that.
    explainedBy: track != null && isFailing(track, pile.nowMs) ? 'probe-out' : null,
  };
}

const whyOf = perLimits(({ actC }: StageLimits) =>
  message('why.heat-doubted.by-pace', { actC, eachHourK: meanwhileKPerH }),
);
const notMeasured = message('warnings.core.not-measured');
const noJump = message('warnings.heat-doubted.seen.none');

const noneOf = perLimits(
  (limits): Finding<'heat-doubted'> => ({
    kind: 'heat-doubted',
    position: null,
    evidence: 'absent',
    severity: 'warning',
    seen: noJump,
    todo: nothingToDo,
    byMs: null,
    caution: null,
    why: whyOf(limits),
    explainedBy: null,
  }),
);
