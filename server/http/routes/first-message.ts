/** Whether anything came from a probe yet, and what kept it out. */
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../../ingest/ingest.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import { firstMessageAnswerSchema, obstacleMinutes } from '../../../shared/contracts/first-message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { brokerAddress } from '../../services/probe-keys/broker-address.ts';
import { refusedConnections } from '../../services/probe-keys/refused-connections.ts';
import type { Api } from '../api.ts';

interface FirstMessageParts {
  readonly ingest: Ingest;
  readonly journal: Journal;
  readonly authPolicy: AuthPolicy | undefined;
  readonly clock: Clock;
  readonly config: Pick<Config, 'MQTT_ROOT' | 'PUBLIC_URL'>;
}

/** More of them would bury the one that matters. */
const mostShown = 3;

export function registerFirstMessage(
  api: Api,
  { ingest, journal, authPolicy, clock, config }: FirstMessageParts,
): void {
  api.get(
    '/api/ingest/first-message',
    { config: { access: 'keeper' }, schema: { response: { 200: firstMessageAnswerSchema } } },
    async ({ hostname }) => {
      const sinceMs = clock.nowMs() - obstacleMinutes * 60_000;
      const isRecent = (at: string) => Date.parse(at) >= sinceMs;
      const refusals = ingest.refusals().refusals.filter(({ last }) => isRecent(last.at));
      const turnedAway = await refusedConnections(authPolicy, journal);
      return {
        broker: brokerAddress(ingest, config.PUBLIC_URL, hostname),
        root: config.MQTT_ROOT,
        authPolicy: authPolicy === undefined ? 'outside' : 'embedded',
        first: ingest.firstMessage() ?? null,
        refused: refusals.sort((one, other) => Date.parse(other.last.at) - Date.parse(one.last.at))[0] ?? null,
        unused: ingest
          .unusedMessages()
          .filter(({ at }) => isRecent(at))
          .slice(0, mostShown),
        turnedAway: turnedAway.filter(({ lastAt }) => isRecent(lastAt)).slice(0, mostShown),
      } as const;
    },
  );
}
