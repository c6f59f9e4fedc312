/** Who was turned away at the broker, and with whose key. */
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import { refusedConnectionsAnswerSchema } from '../../../shared/contracts/keys.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { Api } from '../api.ts';

interface RefusedConnectionsParts {
  readonly journal: Journal;
  readonly authPolicy: AuthPolicy | undefined;
}

export function registerRefusedConnections(api: Api, { journal, authPolicy }: RefusedConnectionsParts): void {
  api.get(
    '/api/ingest/refused-connections',
    { config: { access: 'keeper' }, schema: { response: { 200: refusedConnectionsAnswerSchema } } },
    async () => {
      const names = new Map((await journal.probeKeys.list()).map(({ id, name }) => [id, name]));
      const totals = Object.values(authPolicy?.connectionAttempts.totals() ?? {});
      return {
        total: totals.reduce((sum, count) => sum + count, 0),
        turnedAway: (authPolicy?.connectionAttempts.lines() ?? []).map(({ lastAtMs, keyId, ...line }) => ({
          ...line,
          key: keyId === null ? null : (names.get(keyId) ?? keyId),
          lastAt: toInstant(lastAtMs),
        })),
      };
    },
  );
}
