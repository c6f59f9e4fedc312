/**
 * When to look, when to turn, and when a batch is likely to be ready. It never says that a batch will be ready: heat
 * passes, and then nose and eyes decide.
 */
import type { PlannedDateView } from '../../shared/contracts/plan.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import type { Stage } from '../../shared/names.ts';
import { limitOrigins, stageLimits } from '../../shared/stage.ts';
import { celsiusToFahrenheit, msPerDay, msPerHour } from '../../shared/units.ts';

export interface PlannedDate {
  readonly kind: PlannedDateView['kind'];
  readonly atMs: number;
  /** End of a window; null for a single moment. */
  readonly untilMs: number | null;
  readonly says: string;
  readonly origin: string;
}

export interface DatesAsk {
  readonly startMs: number;
  readonly stage: Stage;
  /** Air expected around the heap [°C]. */
  readonly airC?: number | undefined;
  /** The batch's own length, where it has one [h]. */
  readonly lengthH?: { readonly minH: number; readonly maxH: number } | undefined;
  readonly inFahrenheit?: boolean | undefined;
}

const practice = 'common practice, no source';

interface Length {
  readonly minDays: number;
  readonly maxDays: number;
  readonly origin: string;
}

/** From this on the course counts as warm [°C]. */
const warmFromC = 20;

function lengthOf({ stage, airC, lengthH }: DatesAsk): Length {
  if (lengthH) return { minDays: lengthH.minH / 24, maxDays: lengthH.maxH / 24, origin: 'the limits of this batch' };
  const limits = stageLimits[stage];
  if (stage === 'bran' && airC !== undefined) {
    const split = `${practice}; split at ${warmFromC} °C as BIO-9 (2008, second-hand) splits its times of collecting`;
    return airC >= warmFromC
      ? { minDays: 5, maxDays: 7, origin: `5 to 7 days when warm: ${split}` }
      : { minDays: 7, maxDays: 10, origin: `7 to 10 days when cool: ${split}` };
  }
  return {
    minDays: limits.lengthMinH / 24,
    maxDays: limits.lengthMaxH / 24,
    origin: limitOrigins[stage].lengthMinH,
  };
}

/** Days after the start on which it is turned, whatever its heat. Bran: every other day, the last one as a test. */
function turnDays(stage: Stage, { minDays, maxDays }: Length): number[] {
  if (stage === 'soil') return maxDays > 3 ? [3] : [];
  const days: number[] = [];
  for (let day = 2; day < minDays; day += 2) days.push(day);
  return days;
}

export function planDates(ask: DatesAsk): PlannedDate[] {
  const { startMs, stage } = ask;
  const length = lengthOf(ask);
  const turns = turnDays(stage, length);
  const { actC } = stageLimits[stage];
  const act = ask.inFahrenheit ? `${Math.round(celsiusToFahrenheit(actC))} °F` : `${actC} °C`;
  const dates: PlannedDate[] = [];
  const add = (kind: 'check' | 'turn', day: number, says: string) =>
    dates.push({ kind, atMs: startMs + day * msPerDay, untilMs: null, says, origin: practice });

  for (let day = 1; day < length.maxDays; day += 1) {
    if (turns.includes(day)) {
      add('turn', day, `Turn it, outside to the middle; sooner if the core passes ${act}. Squeeze a handful for damp.`);
    } else if (day === 1) {
      add(
        'check',
        day,
        'See whether it has begun to warm: measure the core morning and evening for the first three days.',
      );
    } else {
      add('check', day, 'Measure the core, squeeze a handful, smell it and look at its growth.');
    }
  }
  dates.push({
    kind: 'ready',
    atMs: startMs + Math.round(length.minDays * 24 * msPerHour),
    untilMs: startMs + Math.round(length.maxDays * 24 * msPerHour),
    says: 'Likely to be ready in these days: its heat has come and gone, a turn brings none back, and smell and look are good.',
    origin: length.origin,
  });
  return dates.sort((one, other) => one.atMs - other.atMs);
}

export function plannedDateView({ kind, atMs, untilMs, says, origin }: PlannedDate): PlannedDateView {
  return { kind, at: toInstant(atMs), until: untilMs === null ? null : toInstant(untilMs), says, origin };
}
