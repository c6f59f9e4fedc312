/** For how long readings are kept as they came, what they take up, and how downsampling goes. */
import {
  keepingAnswerSchema,
  keepingChangeSchema,
  keepingQuestionSchema,
} from '../../../shared/contracts/retention.ts';
import { type KeepingParts, keepingView } from '../../retention/retention-view.ts';
import type { Api } from '../api.ts';

export function registerKeeping(api: Api, parts: KeepingParts): void {
  api.get(
    '/api/retention',
    {
      config: { access: 'viewer' },
      schema: { querystring: keepingQuestionSchema, response: { 200: keepingAnswerSchema } },
    },
    async (request) => keepingView(parts, request.query.keptDays),
  );

  api.put(
    '/api/retention',
    {
      config: { access: 'owner', does: 'audit.did.changed-how-long-readings-are-kept' },
      schema: { body: keepingChangeSchema, response: { 200: keepingAnswerSchema } },
    },
    async (request) => {
      await parts.downsampling.choose(request.body.keptDays);
      return keepingView(parts, undefined);
    },
  );
}
