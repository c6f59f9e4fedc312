/** Who was turned away at the broker, the last first, with whose key. */
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { RefusedConnection } from '../../../shared/contracts/keys.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';

/** @param authPolicy Undefined with a broker of one's own, which knows it alone. */
export async function refusedConnections(
  authPolicy: AuthPolicy | undefined,
  journal: Pick<Journal, 'probeKeys'>,
): Promise<RefusedConnection[]> {
  const lines = authPolicy?.connectionAttempts.lines() ?? [];
  if (lines.length === 0) return [];
  const names = new Map((await journal.probeKeys.list()).map(({ id, name }) => [id, name]));
  return lines.map(({ lastAtMs, keyId, ...line }) => ({
    ...line,
    key: keyId === null ? null : (names.get(keyId) ?? keyId),
    lastAt: toInstant(lastAtMs),
  }));
}
