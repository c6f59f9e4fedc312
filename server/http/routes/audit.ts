/** The audit trail, for owners to read. */
import { auditAnswerSchema, auditQuerySchema } from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Installation } from '../../app/installation.ts';
import type { Api } from '../api.ts';

export function registerAuditRoute(api: Api, installation: Installation): void {
  api.get(
    '/api/audit',
    { config: { access: 'owner' }, schema: { querystring: auditQuerySchema, response: { 200: auditAnswerSchema } } },
    async (request) => {
      const { person, words, from, to, limit, after } = request.query;
      const found = await installation.journal.audit.list({
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
