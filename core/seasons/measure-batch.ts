/**
 * The measures of one batch, by which it is laid beside others. It never says that a batch was good: its verdict is
 * a person's.
 */

import type { Act } from '../../shared/contracts/domain/batch.ts';
import type { Position } from '../../shared/names.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import type { WarningKind } from '../../shared/warning.ts';
import { wetBasis } from '../physics/water-balance.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { startJudge, stepJudge } from '../session/judge.ts';
import { type Columns, hourlyCourse, meanOf, usualIntervalMs, warmingBeganH } from './course.ts';
import { degreeHoursAboveAir, hoursAbove, hoursTo, hoursWithin, measuredHours, peakOf } from './hours.ts';
import type { MeasureKey } from './measure-keys.ts';

interface StoodAlarm {
  readonly kind: WarningKind;
  readonly fromMs: number;
  /** Null while it stands. */
  readonly toMs: number | null;
}

export interface BatchStory {
  readonly setup: PileSetup;
  /** When it ended, or now. */
  readonly untilMs: number;
  /** Whether it was finished or taken on to the next stage, which is a person's word too. */
  readonly ended: boolean;
  readonly core: Columns;
  readonly air: Columns;
  readonly alarms: readonly StoodAlarm[];
}

export interface BatchMeasures extends Record<MeasureKey, number | null> {
  readonly lengthDays: number;
  readonly warmingAfterH: number | null;
  /** Share of its time in which the core was measured [-], and how often a value came [h]. */
  readonly measuredFrac: number;
  readonly everyH: number | null;
  readonly alarms: readonly { readonly kind: WarningKind; readonly count: number; readonly hours: number }[];
}

export function measureBatch(story: BatchStory): BatchMeasures {
  const { setup, untilMs, core, air } = story;
  const { startedAtMs, limits } = setup;
  const hours = Math.max(0, Math.floor((untilMs - startedAtMs) / msPerHour));
  const coreC = hourlyCourse(core, startedAtMs, hours);
  const airC = hourlyCourse(air, startedAtMs, hours);
  const peak = peakOf(core, startedAtMs);
  const hasCore = core.atMs.length > 0;
  const judged = judgedAgain(setup, coreC, airC);
  const acts = setup.acts.filter((act) => act.atMs >= startedAtMs && act.atMs <= untilMs);
  const readyAtMs = setup.confirmedAtMs ?? (story.ended ? untilMs : null);
  const alarms = stoodByKind(story);
  const everyMs = usualIntervalMs(core.atMs);
  return {
    hoursTo40: hoursTo(core, startedAtMs, 40),
    peakC: peak?.peakC ?? null,
    peakAfterH: peak?.peakAfterH ?? null,
    comfortH: hasCore ? hoursWithin(core, limits.comfortMinC, limits.comfortMaxC) : null,
    above50H: hasCore ? hoursAbove(core, 50) : null,
    above60H: hasCore ? hoursAbove(core, 60) : null,
    activityH: hasCore ? judged.activityH : null,
    degreeH: degreeHoursAboveAir(coreC, airC),
    depthM: setup.recipe.depthM ?? null,
    moistureStartFrac: setup.recipe.moistureFrac ?? null,
    moistureEndFrac: hasCore ? wetBasis(judged.waterKgKg) : null,
    waterL: waterGivenL(acts),
    turns: acts.filter((act) => act.kind === 'turned').length,
    alarmH: alarms.reduce((sum, alarm) => sum + alarm.hours, 0),
    readyDays: readyAtMs === null ? null : (readyAtMs - startedAtMs) / msPerDay,
    airMeanC: meanOf(airC),
    lengthDays: (untilMs - startedAtMs) / msPerDay,
    warmingAfterH: warmingBeganH(coreC, airC),
    measuredFrac: hours === 0 ? 0 : Math.min(1, measuredHours(core) / hours),
    everyH: everyMs === null ? null : everyMs / msPerHour,
    alarms,
  };
}

/** Null where any watering has no amount: a total of some would mislead. */
function waterGivenL(acts: readonly Act[]): number | null {
  let sumL = 0;
  for (const { kind, amountL } of acts) {
    if (kind !== 'watered') continue;
    if (amountL === undefined) return null;
    sumL += amountL;
  }
  return sumL;
}

/** The judge's own sums of work and water, over one value an hour: the same for every batch, however it was measured. */
function judgedAgain(
  setup: PileSetup,
  coreC: readonly (number | null)[],
  airC: readonly (number | null)[],
): { activityH: number; waterKgKg: number } {
  const state = startJudge(setup);
  const step = (position: Position, value: number | null | undefined, atMs: number) => {
    if (value != null) stepJudge(state, setup, null, { position, quantity: 'temperature', value, atMs });
  };
  for (let hour = 0; hour < coreC.length; hour += 1) {
    const atMs = setup.startedAtMs + hour * msPerHour;
    step('air', airC[hour], atMs);
    step('core', coreC[hour], atMs);
  }
  return { activityH: state.work.activityH, waterKgKg: state.water.waterKgKg };
}

function stoodByKind({ alarms, setup, untilMs }: BatchStory): BatchMeasures['alarms'] {
  const byKind = new Map<WarningKind, { kind: WarningKind; count: number; hours: number }>();
  for (const { kind, fromMs, toMs } of alarms) {
    const stoodMs = Math.min(toMs ?? untilMs, untilMs) - Math.max(fromMs, setup.startedAtMs);
    if (stoodMs < 0) continue;
    const sum = byKind.get(kind) ?? { kind, count: 0, hours: 0 };
    sum.count += 1;
    sum.hours += stoodMs / msPerHour;
    byKind.set(kind, sum);
  }
  return [...byKind.values()].sort((a, b) => b.hours - a.hours);
}
