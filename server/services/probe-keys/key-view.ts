import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Key } from '../../../shared/contracts/keys.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { ProbeKeyRecord } from '../../../shared/store/journal.ts';

/** A key as owners see it: never its secret. @param authPolicy Says when it was seen last; undefined with a broker of one's own. */
export function keyView(key: ProbeKeyRecord, authPolicy: AuthPolicy | undefined): Key {
  const seen = authPolicy?.seen(key.id);
  return {
    id: key.id,
    name: key.name,
    site: key.site,
    probe: key.probe,
    foreign: [...key.foreign],
    hears: key.hears,
    madeAt: toInstant(key.madeAtMs),
    madeBy: key.madeBy,
    revokedAt: key.revokedAtMs === null ? null : toInstant(key.revokedAtMs),
    revokedBy: key.revokedBy,
    seen: seen ? { connected: seen.connected, lastAt: toInstant(seen.lastAtMs), address: seen.address } : null,
  };
}
