/** From where this server is reached, for the page that lets probes and phones in. */
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../../ingest/ingest.ts';
import { type Config, isLoopback } from '../../../shared/config.ts';
import { reachSchema } from '../../../shared/contracts/reach.ts';
import { qrPath } from '../../../shared/qr-path.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { brokerAddress } from '../../services/probe-keys/broker-address.ts';
import { ownAddresses } from '../../services/probe-keys/own-addresses.ts';
import type { Api } from '../api.ts';

interface ReachParts {
  readonly ingest: Ingest;
  readonly journal: Journal;
  readonly authPolicy: AuthPolicy | undefined;
  readonly config: Pick<Config, 'PUBLIC_URL' | 'HOST' | 'PORT' | 'TLS_CERT'>;
}

export function registerReach(api: Api, { ingest, journal, authPolicy, config }: ReachParts): void {
  api.get(
    '/api/reach',
    { config: { access: 'keeper' }, schema: { response: { 200: reachSchema } } },
    async ({ hostname, raw }) => {
      const addresses = ownAddresses();
      const tls = config.TLS_CERT !== undefined;
      const port = raw.socket.localPort ?? config.PORT;
      const first = addresses[0];
      const url = config.PUBLIC_URL ?? (first === undefined ? null : `${tls ? 'https' : 'http'}://${first}:${port}`);
      return {
        addresses,
        broker: brokerAddress(ingest, config.PUBLIC_URL, hostname),
        authPolicy: authPolicy === undefined ? 'outside' : 'embedded',
        pages: { port, tls, onlyHere: isLoopback(config.HOST), url, code: url === null ? null : await qrPath(url) },
        hasOwner: await journal.people.hasOwner(),
      } as const;
    },
  );
}
