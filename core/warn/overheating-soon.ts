/**
 * core/warn/overheating-soon.ts: the core will likely be too hot within half a day.
 *
 * Takes:  one look at the pile.
 * Gives:  present while the forecast makes it likely and it is not too hot already.
 */
import { msPerHour } from '../../shared/units.ts';
import { chancesInTen } from '../forecast/chances.ts';
import type { Forecast } from '../forecast/forecast.ts';
import type { Finding } from '../judge/assessment.ts';
import { coreNow, coreUnknownSays, type Look } from './look.ts';
import { perLimits } from './per-limits.ts';
import { capital } from './spoken-value.ts';
import { degrees, dustCaution } from './words.ts';

export function overheatingSoonFinding(look: Look): Finding {
  const { state, setup } = look;
  const hotNow = state.positions.core?.overheated === true;
  // The forecast is an hour old at most; a bed opened since then has cooled, and one that has just topped out falls.
  const nowC = look.core?.temperatureC ?? 0;
  const stillUp = nowC >= (state.positions.core?.hourMeanC ?? nowC) - 0.2;
  const present = look.coreKnown && state.soonOver && !hotNow && stillUp;
  const inH = state.forecast?.overInH ?? null;
  return {
    kind: 'overheating-soon',
    position: null,
    evidence: look.coreKnown ? (present ? 'present' : 'absent') : 'missing',
    severity: 'notice',
    seen: !look.coreKnown
      ? coreUnknownSays(look)
      : present
        ? `${capital(coreNow(look))} and ${passWords(state.forecast, setup.limits.actC)}.`
        : 'The core is not on its way over the limit.',
    todo: present
      ? 'Be there before it does: take the cover off, and have the fork ready to turn it or spread it thinner.'
      : 'Nothing.',
    byMs: present ? look.nowMs + (inH ?? 3) * msPerHour : null,
    caution: present ? dustCaution : null,
    why: whyOf(setup.limits),
    explainedBy: look.coreLost,
  };
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
    'within 12 hours, until fewer than a quarter do. Without an expected curve: when it would pass at its present pace within 6 hours.',
);
