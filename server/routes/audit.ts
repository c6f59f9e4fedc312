/**
 * server/routes/audit.ts: the audit trail, for owners to read.
 */
import { auditAnswerSchema, auditQuerySchema } from '../../shared/api/people.ts';
import { toInstant } from '../../shared/api/time.ts';
import type { House } from '../house.ts';
import type { Api } from '../http/api.ts';

export function registerAuditRoute(api: Api, house: House): void {
  api.get(
    '/api/audit',
    { config: { access: 'owner' }, schema: { querystring: auditQuerySchema, response: { 200: auditAnswerSchema } } },
    async (request) => {
      const { person, words, from, to, limit, after } = request.query;
      const found = await house.journal.audit.list({
        ...(person !== undefined && { personId: person }),
        ...(words !== undefined && { words }),
        ...(from !== undefined && { fromMs: from }),
        ...(to !== undefined && { toMs: to }),
        ...(after !== undefined && { after }),
        limit,
      });
      const last = found.length === limit ? found.at(-1) : undefined;
      return {
        entries: found.map(({ atMs, before, after, ...entry }) => ({
          ...entry,
          at: toInstant(atMs),
          before: before === null ? null : JSON.parse(before),
          after: after === null ? null : JSON.parse(after),
        })),
        next: last?.id ?? null,
      };
    },
  );
}
