/** Plans as the API says them: the sentences that a grower reads, made of what the planner found. */
import { planDilution } from '../../../core/plan/dilution.ts';
import { planMix } from '../../../core/plan/mix.ts';
import { planWater } from '../../../core/plan/water.ts';
import { dilutionView, mixView, waterView } from '../../../server/services/views/plan-views.ts';
import type { DilutionAsk, MixAsk, WaterAsk } from '../../../shared/contracts/plan.ts';

export const dilutionInWords = (ask: DilutionAsk) => dilutionView(planDilution(ask), ask.units);
export const waterInWords = (ask: WaterAsk) => waterView(planWater(ask), ask.units);
export const mixInWords = (ask: MixAsk) => mixView(planMix(ask), ask.units);
