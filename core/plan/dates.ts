/**
 * When to look, when to turn, and when a batch is likely to be ready. It never says that a batch will be ready: heat
 * passes, and then nose and eyes decide.
 */
import type { PlannedDateView } from '../../shared/contracts/plan.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Stage } from '../../shared/names.ts';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { handInBelowC } from '../../shared/squeeze.ts';
import { limitOrigins, stageLimits } from '../../shared/stage.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';

export interface PlannedDate {
  readonly kind: PlannedDateView['kind'];
  readonly atMs: number;
  /** End of a window; null for a single moment. */
  readonly untilMs: number | null;
  readonly says: Message;
  readonly origin: Message;
}

export interface DatesAsk {
  readonly startMs: number;
  readonly stage: Stage;
  /** Air expected around the heap [°C]. */
  readonly airC?: number | undefined;
  /** The batch's own length, where it has one [h]. */
  readonly lengthH?: { readonly minH: number; readonly maxH: number } | undefined;
}

const practice = message('origin.practice');

interface Length {
  readonly minDays: number;
  readonly maxDays: number;
  readonly origin: Message;
}

function lengthOf({ stage, airC, lengthH }: DatesAsk): Length {
  if (lengthH) return { minDays: lengthH.minH / 24, maxDays: lengthH.maxH / 24, origin: message('origin.this-batch') };
  const limits = stageLimits[stage];
  const { daysByAir } = stageProfiles[stage];
  if (daysByAir !== null && airC !== undefined) {
    const split = { splitC: daysByAir.warmFromC };
    return airC >= daysByAir.warmFromC
      ? { ...daysByAir.warm, origin: message('origin.length-warm', split) }
      : { ...daysByAir.cool, origin: message('origin.length-cool', split) };
  }
  return {
    minDays: limits.lengthMinH / 24,
    maxDays: limits.lengthMaxH / 24,
    origin: limitOrigins[stage].lengthMinH,
  };
}

/** Days after the start on which it is turned, whatever its heat. */
function turnDays(stage: Stage, { minDays, maxDays }: Length): number[] {
  const { turned } = stageProfiles[stage];
  if ('onDay' in turned) return maxDays > turned.onDay ? [turned.onDay] : [];
  const days: number[] = [];
  for (let day = turned.everyDays; day < minDays; day += turned.everyDays) days.push(day);
  return days;
}

export function planDates(ask: DatesAsk): PlannedDate[] {
  const { startMs, stage } = ask;
  const length = lengthOf(ask);
  const turns = turnDays(stage, length);
  const { actC } = stageLimits[stage];
  const dates: PlannedDate[] = [];
  const add = (kind: 'check' | 'turn', day: number, says: Message) =>
    dates.push({ kind, atMs: startMs + day * msPerDay, untilMs: null, says, origin: practice });

  for (let day = 1; day < length.maxDays; day += 1) {
    if (turns.includes(day)) {
      add('turn', day, message('plan.date.turn', { actC: { valueC: actC, decimals: 0 }, handInC: handInBelowC }));
    } else {
      add(
        'check',
        day,
        day === 1 ? message('plan.date.first-check') : message('plan.date.check', { handInC: handInBelowC }),
      );
    }
  }
  dates.push({
    kind: 'ready',
    atMs: startMs + Math.round(length.minDays * 24 * msPerHour),
    untilMs: startMs + Math.round(length.maxDays * 24 * msPerHour),
    says: message('plan.date.ready'),
    origin: length.origin,
  });
  return dates.sort((one, other) => one.atMs - other.atMs);
}
