/** A batch that should be working and is not. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Stage } from '../../shared/names.ts';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { msPerHour } from '../../shared/units.ts';
import { coreAtHour } from '../estimate/hours.ts';
import { actExplainsH, type StallWhy, stallAfterH, stallStands, warmStallAfterH } from '../estimate/stall.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { knownAtRhythm } from './known-at-rhythm.ts';
import { coreNow, coreNowFirst, coreUnknownSays, measureCore, type PileSnapshot } from './snapshot.ts';

function seenAs(why: StallWhy, pile: PileSnapshot): Message {
  if (why === 'went-out' && keepsItsHeat(pile))
    return message('warnings.stalling.seen.idle', { corePart: coreNow(pile) });
  return message(`warnings.stalling.seen.${why}`, {
    corePart: why === 'below-what-it-should' ? coreNowFirst(pile) : coreNow(pile),
  });
}

/** It makes no heat, and still has half of what it had. */
function keepsItsHeat({ state: { phase, air, hours } }: PileSnapshot): boolean {
  const lastC = coreAtHour(hours, hours.done - 1);
  return lastC !== null && air.dayC !== null && lastC - air.dayC >= phase.peakExcessK / 2;
}

const noStall = message('warnings.stalling.seen.none');
const waterIt = message('warnings.stalling.todo.dry');
const airIt = message('warnings.stalling.todo.idle');
const feelIt = message('warnings.stalling.todo.feel');
const whyStalling: Readonly<Record<Stage, Message>> = { bran: whyOf('bran'), soil: whyOf('soil') };

function whyOf(stage: Stage): Message {
  const { standingPerDay, slowPerDay } = stageProfiles[stage].stall;
  return message('why.stalling', {
    stallH: stallAfterH,
    standingPct: 100 * standingPerDay,
    slowPct: 100 * slowPerDay,
    warmStallH: warmStallAfterH,
    actH: actExplainsH,
  });
}

export function stallingFinding(pile: PileSnapshot): Finding<'stalling'> {
  const { state, setup } = pile;
  const { why } = state.stall;
  const present = pile.coreKnown && why !== null && stallStands(state.stall);
  const dry = wetBasis(state.water.waterKgKg) < setup.limits.moistureMinFrac;
  return {
    kind: 'stalling',
    position: null,
    evidence: pile.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: 'warning',
    seen: !pile.coreKnown ? coreUnknownSays(pile) : present ? seenAs(why, pile) : noStall,
    todo: present
      ? dry
        ? waterIt
        : why === 'warm-but-idle'
          ? airIt
          : feelIt
      : pile.coreKnown
        ? nothingToDo
        : measureCore,
    byMs: present ? pile.nowMs + 12 * msPerHour : null,
    caution: present ? cautions.spores : null,
    why: knownAtRhythm(whyStalling[setup.stage], 'stalling', pile),
    explainedBy: pile.coreLost,
  };
}
