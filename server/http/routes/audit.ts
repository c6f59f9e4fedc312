/** The audit trail, for owners to read. */
import type { Clock } from '../../../shared/clock.ts';
import { type AuditEntry, auditAnswerSchema, auditQuerySchema } from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { AuditRecord } from '../../../shared/store/people-journal.ts';
import { codesSaying } from '../../services/people/audited-code.ts';
import { subjectNames } from '../../services/people/subject-names.ts';
import type { Api } from '../api.ts';
import { readerOf } from '../reader-of.ts';

interface AuditRouteParts {
  readonly journal: Journal;
  readonly clock: Clock;
}

export function registerAuditRoute(api: Api, parts: AuditRouteParts): void {
  api.get(
    '/api/audit',
    { config: { access: 'owner' }, schema: { querystring: auditQuerySchema, response: { 200: auditAnswerSchema } } },
    async (request) => {
      const { person, words, from, to, limit, after } = request.query;
      const nowMs = parts.clock.nowMs();
      const found = await parts.journal.audit.list({
        ...(person !== undefined && { personId: person }),
        ...(words !== undefined && { words: { text: words, codes: codesSaying(words, readerOf(request, nowMs)) } }),
        ...(from !== undefined && { fromMs: from }),
        ...(to !== undefined && { toMs: to }),
        ...(after !== undefined && { after }),
        limit,
      });
      const nameOf = await subjectNames(parts.journal, readerOf(request, nowMs));
      const last = found.length === limit ? found.at(-1) : undefined;
      return {
        entries: found.map((row) => ({ ...auditView(row), subjectName: nameOf(row) })),
        next: last?.id ?? null,
      };
    },
  );
}

/** Beside the sentence its code, for programs. */
function auditView({ atMs, what, personName, ...entry }: AuditRecord): Omit<AuditEntry, 'subjectName'> {
  const at = toInstant(atMs);
  if (personName !== null) return { ...entry, at, personName, ...inWords({ what }, atMs) };
  return { ...entry, at, ...inWords({ what, personName: message('audit.somebody-unknown') }, atMs) };
}
