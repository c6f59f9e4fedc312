/** What the planner answers; loaded when somebody first plans. */
import { planDates } from '../../../core/plan/dates.ts';
import { planDilution } from '../../../core/plan/dilution.ts';
import { planMix } from '../../../core/plan/mix.ts';
import { planWater } from '../../../core/plan/water.ts';
import type { DatesAsk, DilutionAsk, MixAsk, WaterAsk } from '../../../shared/contracts/plan.ts';
import { dilutionView, mixView, plannedDateView, waterView } from './plan-views.ts';

export const answerDilution = (ask: DilutionAsk) => dilutionView(planDilution(ask), ask.units);

export const answerWater = (ask: WaterAsk) => waterView(planWater(ask), ask.units);

export const answerMix = (ask: MixAsk) => mixView(planMix(ask), ask.units);

export function answerDates({ startAt, stage, airC, units }: DatesAsk) {
  const dates = planDates({ startMs: startAt, stage, airC });
  return { dates: dates.map((date) => plannedDateView(date, units)) };
}
