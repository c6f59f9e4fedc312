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
        entries: found.map(({ atMs, before, after, ...entry }) => ({
          ...entry,
          at: toInstant(atMs),
          before: toldIn(before),
          after: toldIn(after),
        })),
        next: last?.id ?? null,
      };
    },
  );
}

/** A line of the trail that cannot be read any more stays in it, and keeps no other from being read. */
function toldIn(text: string | null): unknown {
  if (text === null) return null;
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return 'cannot be read any more';
  }
}
