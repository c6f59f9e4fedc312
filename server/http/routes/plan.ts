/** The planner over HTTP: starter, water, mix, dates. Nothing is stored. */
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
import type { Api } from '../api.ts';

const planner = () => import('../../services/views/plan-answers.ts');

export function registerPlan(api: Api): void {
  api.post(
    '/api/plan/dilution',
    {
      config: { access: 'viewer', does: false },
      schema: { body: dilutionAskSchema, response: { 200: dilutionAnswerSchema } },
    },
    async ({ body }) => (await planner()).answerDilution(body),
  );
  api.post(
    '/api/plan/water',
    {
      config: { access: 'viewer', does: false },
      schema: { body: waterAskSchema, response: { 200: waterAnswerSchema } },
    },
    async ({ body }) => (await planner()).answerWater(body),
  );
  api.post(
    '/api/plan/mix',
    { config: { access: 'viewer', does: false }, schema: { body: mixAskSchema, response: { 200: mixAnswerSchema } } },
    async ({ body }) => (await planner()).answerMix(body),
  );
  api.post(
    '/api/plan/dates',
    {
      config: { access: 'viewer', does: false },
      schema: { body: datesAskSchema, response: { 200: datesAnswerSchema } },
    },
    async ({ body }) => (await planner()).answerDates(body),
  );
}
