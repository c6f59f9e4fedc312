/** The core will likely be too hot within half a day. */
import { msPerHour } from '../../shared/units.ts';
import { coreCourse } from '../estimate/course.ts';
import { chancesInTen } from '../forecast/chances.ts';
import type { Forecast } from '../forecast/forecast.ts';
import { degrees, dustCaution } from '../words/words.ts';
import type { Finding } from './finding.ts';
import { perLimits } from './per-limits.ts';
import { coreNow, coreUnknownSays, type PileSnapshot } from './snapshot.ts';
import { believedK } from './soon-sight.ts';
import { capital } from './spoken-value.ts';

export function overheatingSoonFinding(pile: PileSnapshot): Finding {
  const { state, setup } = pile;
  const hotNow = state.positions.core?.overheated === true;
  // The forecast is an hour old at most; a bed opened since then has cooled, and one that has just topped out falls.
  const nowC = pile.core?.temperatureC ?? 0;
  const stillUp = nowC >= (state.positions.core?.hourMeanC ?? nowC) - 0.2;
  const present = pile.coreKnown && state.soonOver && !hotNow && stillUp;
  // Neither what has come true nor what still creeps up has eased: only a core that rises no more is out of danger.
  const creeps = !present && !hotNow && setup.limits.actC - nowC < believedK && coreCourse(state, nowC) === 'rising';
  const known = pile.coreKnown && !hotNow && !creeps;
  return {
    kind: 'overheating-soon',
    position: null,
    evidence: known ? (present ? 'present' : 'absent') : 'missing',
    severity: 'notice',
    seen: !pile.coreKnown
      ? coreUnknownSays(pile)
      : present
        ? `${capital(coreNow(pile))} and ${passWords(state.forecast, setup.limits.actC)}.`
        : hotNow
          ? `${capital(coreNow(pile))}: it is too hot already.`
          : creeps
            ? `${capital(coreNow(pile))} and still rises; whether it will pass ${degrees(setup.limits.actC)} cannot be told.`
            : 'The core is not on its way over the limit.',
    todo: present
      ? 'Be there before it does: take the cover off, and have the fork ready to turn it or spread it thinner.'
      : 'Nothing.',
    byMs: present ? byMs(pile) : null,
    caution: present ? dustCaution : null,
    why: whyOf(setup.limits),
    explainedBy: pile.coreLost ?? (hotNow ? 'overheating' : null),
  };
}

/** When it would pass the limit: by the forecast, which is up to an hour old. */
function byMs({ state: { forecast }, nowMs }: PileSnapshot): number {
  const { atMs, overInH } = forecast ?? { atMs: nowMs, overInH: null };
  return overInH === null ? nowMs + 3 * msPerHour : Math.max(nowMs, atMs + overInH * msPerHour);
}

/** From this likelihood on it is called likely, as on the page of the pile. */
const likelyFrom = 0.66;

/** @example "is likely to pass 50 °C in about 3 hours: 8 chances in 10" */
export function passWords(forecast: Forecast | null, limitC: number): string {
  const limit = degrees(limitC);
  if (forecast === null) return `is likely to pass ${limit} within some hours`;
  const { overInH, overLikelihood } = forecast;
  const when = overInH === null ? 'within some hours' : `in about ${overInH} ${overInH === 1 ? 'hour' : 'hours'}`;
  const does = overLikelihood >= likelyFrom ? 'is likely to pass' : 'may pass';
  return `${does} ${limit} ${when}: ${chancesInTen(overLikelihood)}`;
}

const whyOf = perLimits(
  ({ actC }) =>
    `Present within 4.5 °C of ${degrees(actC)} and rising, when four in five of the modelled heaps that behave as this one did go on to pass it ` +
    'within 12 hours, until fewer than a quarter do and it rises no more. Without an expected curve: when it would pass at its present pace within 6 hours.',
);
