/** The auth policy of the embedded broker as the journal and the environment leave it. */
import { type AuthPolicy, createAuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import type { Journal } from '../../../shared/store/journal.ts';

/** "yes" once the owner wants a key of every probe, this machine's programs included. */
const everyoneSetting = 'door.every-probe-needs-a-key';

export async function openAuthPolicy(
  config: Pick<Config, 'MQTT_ROOT' | 'MQTT_TRUSTED_NETWORK'>,
  clock: Clock,
  journal: Journal,
): Promise<AuthPolicy> {
  const everyProbeNeedsAKey = await readEveryProbeNeedsAKey(journal);
  const rules = { everyProbeNeedsAKey, networkIsTrusted: config.MQTT_TRUSTED_NETWORK === 'yes' };
  const authPolicy = createAuthPolicy({ clock, root: config.MQTT_ROOT, rules });
  await renewKeys(authPolicy, journal);
  return authPolicy;
}

export async function renewKeys(authPolicy: AuthPolicy, journal: Journal): Promise<void> {
  const keys = await journal.probeKeys.list();
  const revoked = keys.filter(({ revokedAtMs }) => revokedAtMs !== null);
  authPolicy.setKeys(
    keys.filter(({ revokedAtMs }) => revokedAtMs === null),
    revoked.map(({ id }) => id),
  );
}

async function readEveryProbeNeedsAKey(journal: Journal): Promise<boolean> {
  return (await journal.settings.get(everyoneSetting)) === 'yes';
}

export async function keepEveryProbeNeedsAKey(journal: Journal, needs: boolean): Promise<void> {
  await journal.settings.set(everyoneSetting, needs ? 'yes' : 'no');
}
