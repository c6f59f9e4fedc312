import type { ApiToken } from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { TokenRecord } from '../../../shared/store/people-journal.ts';

/** A token as its person, or an owner, sees it: never its secret. */
export function tokenView(
  { id, name, scope, personId, madeAtMs, usedAtMs, endsAtMs }: TokenRecord,
  personName: string,
): ApiToken {
  return {
    id,
    name,
    scope,
    personId,
    personName,
    madeAt: toInstant(madeAtMs),
    usedAt: usedAtMs === null ? null : toInstant(usedAtMs),
    endsAt: endsAtMs === null ? null : toInstant(endsAtMs),
  };
}
