/** The core will likely be too hot within half a day. */
import { type Message, message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import { coreCourse } from '../estimate/course.ts';
import { believedK } from '../estimate/soon-over.ts';
import type { Forecast } from '../forecast/forecast.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import { perLimits } from './per-limits.ts';
import { coreNowFirst, coreUnknownSays, type PileSnapshot } from './snapshot.ts';

export function overheatingSoonFinding(pile: PileSnapshot): Finding<'overheating-soon'> {
  const { state, setup } = pile;
  const hotNow = state.positions.core?.overheated === true;
  // The forecast is an hour old at most; a bed opened since then has cooled, and one that has just topped out falls.
  const nowC = pile.core?.temperatureC ?? 0;
  const stillUp = nowC >= (state.positions.core?.hour.meanC ?? nowC) - 0.2;
  const present = pile.coreKnown && state.ahead.soonOver && !hotNow && stillUp;
  // Neither what has come true nor what still creeps up has eased: only a core that rises no more is out of danger.
  const creeps =
    !present && !hotNow && setup.limits.actC - nowC < believedK && coreCourse(state.hours, nowC) === 'rising';
  const known = pile.coreKnown && !hotNow && !creeps;
  return {
    kind: 'overheating-soon',
    position: null,
    evidence: known ? (present ? 'present' : 'absent') : 'missing',
    severity: 'notice',
    seen: !pile.coreKnown
      ? coreUnknownSays(pile)
      : present
        ? passMessage(coreNowFirst(pile), state.ahead.forecast, setup.limits.actC)
        : hotNow
          ? message('warnings.overheating-soon.seen.already', { corePart: coreNowFirst(pile) })
          : creeps
            ? message('warnings.overheating-soon.seen.creeps', {
                corePart: coreNowFirst(pile),
                limitC: setup.limits.actC,
              })
            : notOnItsWay,
    todo: present ? beThere : nothingToDo,
    byMs: present ? byMs(pile) : null,
    caution: present ? cautions.spores : null,
    why: whyOf(setup.limits),
    explainedBy: pile.coreLost ?? (hotNow ? 'overheating' : null),
  };
}

/** When it would pass the limit: by the forecast, which is up to an hour old. */
function byMs({ state, nowMs }: PileSnapshot): number {
  const { atMs, overInH } = state.ahead.forecast ?? { atMs: nowMs, overInH: null };
  return overInH === null ? nowMs + 3 * msPerHour : Math.max(nowMs, atMs + overInH * msPerHour);
}

/**
 * From this likelihood on it is called likely [-]: two in three, where the calibrated language of the IPCC begins to (Mastrandrea et
 * al. 2010; from memory).
 */
const likelyFrom = 0.66;

/** @example "The core is at 47 °C and is likely to pass 50 °C in about 3 hours: 8 chances in 10." */
export function passMessage(corePart: Message, forecast: Forecast | null, limitC: number): Message {
  if (forecast === null) return message('warnings.overheating-soon.seen.some-hours', { corePart, limitC });
  const { overInH, overLikelihood } = forecast;
  return message('warnings.overheating-soon.seen.likely', {
    corePart,
    isLikely: overLikelihood >= likelyFrom,
    limitC,
    isTimed: overInH !== null,
    overInH: overInH ?? 0,
    chances: overLikelihood > 0.95 ? 'most' : overLikelihood < 0.05 ? 'few' : 'other',
    tenthsCount: Math.min(9, Math.max(1, Math.round(overLikelihood * 10))),
  });
}

const notOnItsWay = message('warnings.overheating-soon.seen.none');
const beThere = message('warnings.overheating-soon.todo');
const whyOf = perLimits(({ actC }) => message('why.overheating-soon', { actC, believedK }));
