/** Who was turned away at the broker, and with whose key. */
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import { refusedConnectionsAnswerSchema } from '../../../shared/contracts/keys.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { refusedConnections } from '../../services/probe-keys/refused-connections.ts';
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
      const totals = Object.values(authPolicy?.connectionAttempts.totals() ?? {});
      return {
        total: totals.reduce((sum, count) => sum + count, 0),
        turnedAway: await refusedConnections(authPolicy, journal),
      };
    },
  );
}
