/** The journal's columns about people, as the newest migration leaves them. */
import type { Role, Scope } from '../../person.ts';
import type { AuditRecord, LinkKind } from '../people-journal.ts';

export interface PeopleTables {
  person: {
    id: string;
    name: string;
    name_key: string;
    role: Role;
    password_hash: string;
    created_at_ms: number;
    /** Set once they were removed; the row stays, as entries and the trail name them. */
    removed_at_ms: number | null;
    /** BCP 47; null where they leave it to their browser. */
    language: string | null;
  };
  session: {
    digest: string;
    id: string;
    person_id: string;
    made_at_ms: number;
    seen_at_ms: number;
    ends_at_ms: number;
    address: string;
    agent: string;
  };
  link: {
    digest: string;
    id: string;
    kind: LinkKind;
    role: Role;
    person_id: string | null;
    made_by: string;
    /** A person's id, 'here' or 'api-token'; null for what the program itself makes. */
    made_by_id: string | null;
    made_at_ms: number;
    ends_at_ms: number;
  };
  api_token: {
    digest: string;
    id: string;
    person_id: string;
    name: string;
    scope: Scope;
    made_at_ms: number;
    used_at_ms: number | null;
    ends_at_ms: number | null;
  };
  attempt: { key: string; failures: number; last_at_ms: number; open_at_ms: number };
  audit: {
    id: string;
    at_ms: number;
    person_id: string | null;
    person_name: string;
    via: AuditRecord['via'];
    what: string;
    subject: string | null;
    address: string | null;
    before: string | null;
    after: string | null;
  };
}
