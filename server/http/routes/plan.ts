/** The planner over HTTP: starter, water, mix, dates. Nothing is stored. */
import { planDates } from '../../../core/plan/dates.ts';
import { planDilution } from '../../../core/plan/dilution.ts';
import { planMix } from '../../../core/plan/mix.ts';
import { planWater } from '../../../core/plan/water.ts';
import {
  datesAnswerSchema,
  datesAskSchema,
  dilutionAnswerSchema,
  dilutionAskSchema,
  mixAnswerSchema,
  mixAskSchema,
  waterAnswerSchema,
  waterAskSchema,
} from '../../../shared/contracts/plan.ts';
import { dilutionView, mixView, plannedDateView, waterView } from '../../services/views/plan-views.ts';
import type { Api } from '../api.ts';

export function registerPlan(api: Api): void {
  api.post(
    '/api/plan/dilution',
    {
      config: { access: 'viewer', does: false },
      schema: { body: dilutionAskSchema, response: { 200: dilutionAnswerSchema } },
    },
    async ({ body }) => dilutionView(planDilution(body), body.units),
  );
  api.post(
    '/api/plan/water',
    {
      config: { access: 'viewer', does: false },
      schema: { body: waterAskSchema, response: { 200: waterAnswerSchema } },
    },
    async ({ body }) => waterView(planWater(body), body.units),
  );
  api.post(
    '/api/plan/mix',
    { config: { access: 'viewer', does: false }, schema: { body: mixAskSchema, response: { 200: mixAnswerSchema } } },
    async ({ body }) => mixView(planMix(body), body.units),
  );
  api.post(
    '/api/plan/dates',
    {
      config: { access: 'viewer', does: false },
      schema: { body: datesAskSchema, response: { 200: datesAnswerSchema } },
    },
    async (request) => {
      const { startAt, stage, airC, units } = request.body;
      const dates = planDates({ startMs: startAt, stage, airC });
      return { dates: dates.map((date) => plannedDateView(date, units)) };
    },
  );
}
