/**
 * Too hot for the culture now.
 *
 * Counting what an error may hide against the pile is the guard band of JCGM 106:2012, 8.3 (from memory).
 */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { atLimitMs, chipErrorK, type Nearness, temperatureDeadbandK } from '../alarms/policies.ts';
import type { HotStep } from '../estimate/hot-step.ts';
import { cautions } from '../profiles/cautions.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';
import { type Finding, nothingToDo, type PositionSight } from './finding.ts';
import { knownAtRhythm } from './known-at-rhythm.ts';
import { perLimits } from './per-limits.ts';
import { coreUnknownSays, measureCore, type PileSnapshot } from './snapshot.ts';
import { isOld } from './spoken-value.ts';

/** Whoever speaks more seldom than this has said all that will be known while an alarm is held [ms]; our own choice, no source. */
const seldomMs = 1.1 * atLimitMs;

/** Four times the ±0.5 °C of a common chip: a core this far above the limit is above it [K]. A skin may be so for a sunny hour. */
const clearK = 2;

export function overheatingFinding(pile: PileSnapshot): Finding<'overheating'> {
  const { actC } = pile.setup.limits;
  const hottest = hottestOver(pile);
  const why = knownAtRhythm(whyOf(pile.setup.limits), 'overheating', pile);
  if (hottest === undefined) {
    // What jumped over the limit and is doubted may be so: it is neither confirmed nor cleared.
    const known = pile.coreKnown && pile.doubtedHeat === null;
    return {
      kind: 'overheating',
      position: null,
      evidence: known ? 'absent' : 'missing',
      severity: 'warning',
      seen: known ? noneOver : pile.coreKnown ? jumped : coreUnknownSays(pile),
      todo: known ? nothingToDo : measureCore,
      byMs: null,
      caution: null,
      why,
      explainedBy: pile.coreLost,
    };
  }
  const lost = hottest.step === 2;
  return {
    kind: 'overheating',
    position: null,
    evidence: 'present',
    severity: lost ? 'urgent' : 'warning',
    seen: hotSeen(hotNow(pile, hottest), hottest, pile.setup.limits),
    todo: lost ? spreadNow : turnIt,
    byMs: lost ? pile.nowMs : pile.nowMs + 2 * msPerHour,
    caution: openedHot,
    why,
    explainedBy: null,
    nearness: nearnessOf(hottest, actC),
    isPast: hottest.step > 0,
    isLastWord: isSeldomHeard(pile.positions[hottest.position]),
  };
}

/** Nothing comes soon that could take it back: a probe that speaks seldom, or a person. */
function isSeldomHeard(sight: PositionSight | null): boolean {
  return sight !== null && (sight.byHand === true || sight.everyMs > seldomMs);
}

function hotNow({ positions, nowMs }: PileSnapshot, { position, tempC }: Hot): Message {
  const sight = positions[position];
  const atMs = sight?.temperatureAtMs ?? null;
  return sight !== null && atMs !== null && (sight.doubted !== null || isOld(sight, nowMs))
    ? message('warnings.value.of-pile.then', { position, tempC, agoMs: nowMs - atMs })
    : message('warnings.value.of-pile.now', { position, tempC });
}

function hotSeen(hottestPart: Message, { tempC, step }: Hot, { actC: limitC }: StageLimits): Message {
  if (step === 2) return message('warnings.overheating.seen.dying', { hottestPart });
  if (tempC > limitC) return message('warnings.overheating.seen.above', { hottestPart, limitC });
  if (tempC <= limitC - chipErrorK) return message('warnings.overheating.seen.just-under', { hottestPart, limitC });
  return message('warnings.overheating.seen.may-be-at', { hottestPart, errorK: chipErrorK, limitC });
}

const openedHot = paragraph(cautions.spores, cautions.scald);
const noneOver = message('warnings.overheating.seen.none');
const jumped = message('warnings.overheating.seen.jumped');
const spreadNow = message('warnings.overheating.todo.spread');
const turnIt = message('warnings.overheating.todo.turn');

function nearnessOf({ position, tempC }: Hot, actC: number): Nearness {
  if (tempC <= actC) return 'at';
  return position === 'core' && tempC >= actC + clearK ? 'clear' : 'past';
}

const whyOf = perLimits(({ actC, lossC }) =>
  message('why.overheating', {
    actC,
    clearC: actC - temperatureDeadbandK,
    countsC: actC - chipErrorK,
    errorK: chipErrorK,
    atOnceC: actC + clearK,
    lossC,
  }),
);

export interface Hot {
  readonly position: PilePosition;
  readonly tempC: number;
  readonly step: HotStep;
}

/** The hottest fresh position that is over the limit. */
export function hottestOver(pile: PileSnapshot): Hot | undefined {
  let hottest: Hot | undefined;
  for (const position of pilePositions) {
    const sight = pile.positions[position];
    if (sight === null || sight.silent || sight.temperatureC === null) continue;
    const followed = pile.state.positions[position];
    if (followed?.overheated !== true) continue;
    if (hottest === undefined || sight.temperatureC > hottest.tempC)
      hottest = { position, tempC: sight.temperatureC, step: followed.hotStep };
  }
  return hottest;
}
