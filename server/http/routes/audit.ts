/** The audit trail, for owners to read. */
import { auditAnswerSchema, auditQuerySchema } from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { Api } from '../api.ts';

interface AuditRouteParts {
  readonly journal: Journal;
}

export function registerAuditRoute(api: Api, parts: AuditRouteParts): void {
  api.get(
    '/api/audit',
    { config: { access: 'owner' }, schema: { querystring: auditQuerySchema, response: { 200: auditAnswerSchema } } },
    async (request) => {
      const { person, words, from, to, limit, after } = request.query;
      const found = await parts.journal.audit.list({
        ...(person !== undefined && { personId: person }),
        ...(words !== undefined && { words }),
        ...(from !== undefined && { fromMs: from }),
        ...(to !== undefined && { toMs: to }),
        ...(after !== undefined && { after }),
        limit,
      });
      const last = found.length === limit ? found.at(-1) : undefined;
      return {
        entries: found.map(({ atMs, ...entry }) => ({ ...entry, at: toInstant(atMs) })),
        next: last?.id ?? null,
      };
    },
  );
}
