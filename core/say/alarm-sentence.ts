/** What a pile says while an alarm stands. */
import { isHandKind, isProbeKind, type ProbeKind } from '../../shared/conditions/kinds.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { selfHeatingLadder } from '../../shared/stage.ts';
import type { WarningKind } from '../../shared/warning.ts';
import { chipErrorK, temperatureDeadbandK } from '../alarms/policies.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';
import { doubtedHeat } from '../warnings/doubted-heat.ts';
import type { Finding } from '../warnings/finding.ts';
import { easedTodo } from './eased-todo.ts';
import { againstHand, handSentence } from './hand-sentence.ts';
import { damageSentence, doubtedSentence } from './heat-sentences.ts';
import type { AlarmFacts, Saying, Tone } from './saying.ts';
import { spokenAt, unspoken } from './spoken-value.ts';

const next = {
  spreadOutNow: message('say.next.spread-out-now'),
  turnNow: message('say.next.turn-now'),
  soon: message('say.next.soon'),
  soonReached: message('say.next.soon-reached'),
  soonNotEased: message('say.next.soon-not-eased'),
  measureCoreNow: message('say.next.measure-core-now'),
};

/** What asks for its own probe, whatever the finding of now is. */
const ofProbes = {
  'probe-stuck': { condition: message('say.probe-stuck'), next: message('say.next.probe-stuck'), tone: 'act' },
  'probe-out': { condition: message('say.probe-out'), next: message('say.next.probe-out'), tone: 'act' },
  'probe-silent': { condition: message('say.probe-silent'), next: message('say.next.probe-silent'), tone: 'watch' },
} as const satisfies Record<ProbeKind, Saying>;

const uneven = message('say.uneven');
/** Below this no position stands on the ladder of self-heating any more [°C]. */
const hazardEndsC = selfHeatingLadder[0].fromC - temperatureDeadbandK;

export function alarmSentence(kind: WarningKind, facts: AlarmFacts): Saying {
  const finding = facts.present.get(kind);
  const todo = finding?.todo;
  const eased = (condition: Message, tone: Tone): Saying => ({ condition, next: todo ?? easedTodo(kind), tone });

  if (isHandKind(kind)) return handSentence(kind, facts);
  if (isProbeKind(kind)) return todo === undefined ? ofProbes[kind] : { ...ofProbes[kind], next: todo };
  switch (kind) {
    case 'self-heating':
      if (todo === undefined || !hazardIsHeard(facts)) return hazardUnseen(facts);
      return {
        condition: doubtedHottest('dangerous', facts) ?? message('say.heating-dangerously', hottest(facts)),
        next: todo,
        tone: 'danger',
      };
    case 'overheating':
      return overheatingSentence(facts);
    case 'heat-doubted':
      return doubtedSentence(facts);
    case 'heat-damage':
      return damageSentence(facts);
    case 'overheating-soon':
      if (finding === undefined && coreIsHeard(facts)) return pastSoon(facts);
      return { condition: message('say.soon', coreNow(facts)), next: todo ?? next.soon, tone: 'act' };
    case 'drying':
      return eased(againstHand('hand-dry', facts) ?? message('say.drying', coreNow(facts)), 'act');
    case 'waterlogged':
      return eased(againstHand('hand-wet', facts) ?? message('say.waterlogged', coreNow(facts)), 'act');
    case 'uneven':
      return eased(uneven, 'watch');
    case 'stalling':
      return eased(message(hasWarmed(finding) ? 'say.stalling' : 'say.never-warmed', coreNow(facts)), 'act');
    default:
      return eased(message(`say.${kind}`, coreNow(facts)), 'act');
  }
}

/** What never warmed cannot have stopped warming. */
const hasWarmed = (finding: Finding | undefined) => finding?.seen.code !== 'warnings.stalling.seen.never-warmed';

function overheatingSentence(facts: AlarmFacts): Saying {
  const { assessment, temp, present } = facts;
  const finding = present.get('overheating');
  if (finding === undefined) {
    if (isDoubtedHot(facts)) return doubtedSentence(facts);
    if (!coreIsHeard(facts)) return keptWithoutSight('other', facts);
    return { condition: heatUnseen('other', facts), next: easedTodo('overheating'), tone: 'watch' };
  }
  const isUrgent = finding.severity === 'urgent';
  return {
    condition:
      doubtedHottest('other', facts) ??
      message(finding.isPast ? 'say.too-hot' : 'say.at-limit', {
        ...hottest(facts),
        actC: temp(assessment.limits.actC),
      }),
    next: isUrgent ? next.spreadOutNow : next.turnNow,
    tone: isUrgent ? 'danger' : 'act',
  };
}

/** Whether a position speaks of it now; else it rests on the last word of one that is silent. */
function hazardIsHeard({ assessment: { positions } }: AlarmFacts): boolean {
  return pilePositions.some((position) => {
    const sight = positions[position];
    return sight?.silent === false && (sight.temperatureC ?? 0) >= hazardEndsC;
  });
}

/** The hazard stands, and no probe shows it now. Where none can, its last order holds, not the one for a pile that is merely lost sight of. */
function hazardUnseen(facts: AlarmFacts): Saying {
  const isUnknown = isDoubtedHot(facts) || !coreIsHeard(facts);
  const saying = isDoubtedHot(facts) ? doubtedSentence(facts) : keptWithoutSight('dangerous', facts);
  if (isUnknown) return { ...saying, next: facts.hazardTodo ?? saying.next, tone: 'danger' };
  return {
    condition: heatUnseen('dangerous', facts),
    next: facts.hazardTodo ?? easedTodo('self-heating'),
    tone: 'act',
  };
}

/** How a heat is spoken of: "heating dangerously", or "too hot". */
type Heat = 'dangerous' | 'other';

/** Of the hottest position, which it was about: a core that rises beside a top that was too hot would name the wrong one. */
function heatUnseen(heat: Heat, facts: AlarmFacts): Message {
  const isOfCore = hottestPosition(facts) === 'core';
  return message('say.heat-unseen', { heat, hasFallen: isOfCore && hasFallen(facts), ...hottest(facts) });
}

/** A newer reading says that it may be hot again. */
function isDoubtedHot({ assessment: { positions, limits, atMs } }: AlarmFacts): boolean {
  return doubtedHeat(positions, limits.actC, atMs) !== null;
}

/** The core was likely to pass its limit and no longer is, or has passed it. Eased is said of a core that has come down. */
function pastSoon(facts: AlarmFacts): Saying {
  const { assessment, temp } = facts;
  const { actC } = assessment.limits;
  const coreC = assessment.positions.core?.temperatureC ?? 0;
  const coreIsPart = spokenAt('core', facts);
  if (coreC > actC - chipErrorK) {
    const condition = message('say.soon-reached', { isPassed: coreC > actC, actC: temp(actC), coreIsPart });
    return { condition, next: next.soonReached, tone: 'act' };
  }
  if (hasFallen(facts))
    return {
      condition: message('say.soon-eased', { coreIsPart }),
      next: easedTodo('overheating-soon'),
      tone: 'watch',
    };
  const condition =
    assessment.coreCourse === 'rising'
      ? message('say.soon-still-rising', { coreIsPart, actC: temp(actC) })
      : message('say.soon-holds', { coreIsPart });
  return { condition, next: next.soonNotEased, tone: 'watch' };
}

const hasFallen = ({ assessment }: AlarmFacts) => assessment.coreCourse === 'fallen';

/** Whether what the core probe says now can be believed. */
function coreIsHeard({ assessment }: AlarmFacts): boolean {
  const { core } = assessment.positions;
  return core !== null && !core.silent && !assessment.coreDoubted;
}

function coreNow(facts: AlarmFacts): { readonly isCoreKnown: boolean; readonly coreIsPart: Message } {
  const isCoreKnown = facts.assessment.positions.core?.temperatureC != null;
  return { isCoreKnown, coreIsPart: isCoreKnown ? spokenAt('core', facts) : unspoken };
}

function hottestPosition({ assessment }: AlarmFacts): PilePosition | null {
  let hottest: PilePosition | null = null;
  let tempC = Number.NEGATIVE_INFINITY;
  for (const position of pilePositions) {
    const sight = assessment.positions[position];
    if (sight === null || sight.silent || sight.temperatureC === null || sight.temperatureC <= tempC) continue;
    hottest = position;
    tempC = sight.temperatureC;
  }
  return hottest;
}

function hottest(facts: AlarmFacts): { readonly isPlaceKnown: boolean; readonly hottestIsPart: Message } {
  const position = hottestPosition(facts);
  return { isPlaceKnown: position !== null, hottestIsPart: position === null ? unspoken : spokenAt(position, facts) };
}

/** The hottest position jumped since it was known to be so hot: down, as when it is opened, or further up. */
function doubtedHottest(heat: Heat, facts: AlarmFacts): Message | null {
  const position = hottestPosition(facts);
  const sight = position === null ? null : facts.assessment.positions[position];
  if (position === null || sight?.doubted == null) return null;
  const isUp = sight.doubted.temperatureC > (sight.temperatureC ?? 0);
  return message('say.hottest-doubted', { heat, isUp, hottestIsPart: spokenAt(position, facts) });
}

/** An alarm that stands without fresh evidence: it says when it was last seen, and asks for a hand measurement. */
function keptWithoutSight(heat: Heat, { assessment, temp }: AlarmFacts): Saying {
  const core = assessment.positions.core;
  const condition = assessment.coreDoubted
    ? message('say.lost-sight-doubted', { heat })
    : core?.byHand === true
      ? message('say.lost-sight-by-hand', {
          heat,
          agoMs: assessment.atMs - (core.atMs ?? assessment.atMs),
          lastC: temp(core.temperatureC ?? 0),
        })
      : message('say.lost-sight', {
          heat,
          isAgeKnown: core?.atMs != null,
          silentMs: assessment.atMs - (core?.atMs ?? assessment.atMs),
          isTempKnown: core?.temperatureC != null,
          lastC: temp(core?.temperatureC ?? 0),
        });
  return { condition, next: next.measureCoreNow, tone: 'act' };
}
