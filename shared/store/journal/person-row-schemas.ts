/** Rows of people, of what they sign in with, and of what they did. */
import { z } from 'zod';
import { auditedWays, roleSchema, scopeSchema } from '../../person.ts';
import { linkKinds } from '../people-journal.ts';
import { count, epochMs, maybeMs, maybeText, text } from './row-fields.ts';

export const personRowSchemas = {
  person: z.object({
    id: text,
    name: text,
    name_key: text,
    role: roleSchema,
    password_hash: text,
    created_at_ms: epochMs,
    removed_at_ms: maybeMs,
    language: maybeText,
  }),
  session: z.object({
    digest: text,
    id: text,
    person_id: text,
    made_at_ms: epochMs,
    seen_at_ms: epochMs,
    ends_at_ms: epochMs,
    address: text,
    agent: text,
  }),
  link: z.object({
    digest: text,
    id: text,
    kind: z.enum(linkKinds),
    role: roleSchema,
    person_id: maybeText,
    made_by: text,
    made_by_id: maybeText,
    made_at_ms: epochMs,
    ends_at_ms: epochMs,
  }),
  api_token: z.object({
    digest: text,
    id: text,
    person_id: text,
    name: text,
    scope: scopeSchema,
    made_at_ms: epochMs,
    used_at_ms: maybeMs,
    ends_at_ms: maybeMs,
  }),
  attempt: z.object({ key: text, failures: count, last_at_ms: epochMs, open_at_ms: epochMs }),
  audit: z.object({
    id: text,
    at_ms: epochMs,
    person_id: maybeText,
    person_name: text,
    via: z.enum(auditedWays),
    what: text,
    subject: maybeText,
    address: maybeText,
    before: maybeText,
    after: maybeText,
  }),
};
