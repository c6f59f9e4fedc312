/** The broker's keys: made, listed, revoked; who was turned away; files for a Mosquitto of your own. */
import { z } from 'zod';
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import { filterProblem } from '../../../ingest/mapping/topic-filter.ts';
import type { Ingest } from '../../../ingest/start-ingest.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import {
  authRuleSchema,
  type Key,
  keysAnswerSchema,
  madeKeySchema,
  newKeySchema,
  refusedConnectionsAnswerSchema,
} from '../../../shared/contracts/keys.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal, ProbeKeyRecord } from '../../../shared/store/journal.ts';
import { brokerAddress } from '../../services/probe-keys/broker-address.ts';
import { accessFile, passwordFile } from '../../services/probe-keys/mosquitto-files.ts';
import { keepEveryProbeNeedsAKey, renewKeys } from '../../services/probe-keys/open-auth-policy.ts';
import { newSecret, randomLetters } from '../../services/probe-keys/secret.ts';
import { shownKey } from '../../services/probe-keys/show-key.ts';
import { qrPath } from '../../services/records/qr-path.ts';
import type { Api } from '../api.ts';
import { attachment } from '../attachment.ts';
import { notFound, sendProblem } from '../problem.ts';

interface KeysParts {
  readonly ingest: Ingest;
  readonly journal: Journal;
  readonly authPolicy: AuthPolicy | undefined;
  readonly clock: Clock;
  readonly config: Pick<Config, 'MQTT_ROOT' | 'MQTT_USERNAME' | 'MQTT_PASSWORD' | 'PUBLIC_URL'>;
}

export function registerKeys(api: Api, parts: KeysParts): void {
  const { journal, authPolicy, clock, config } = parts;
  const root = config.MQTT_ROOT;
  const installationAccount = { username: config.MQTT_USERNAME, password: config.MQTT_PASSWORD };

  function view(key: ProbeKeyRecord): Key {
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

  async function answer() {
    const rules = authPolicy?.rules();
    return {
      keys: (await journal.probeKeys.list()).map(view),
      authPolicy: authPolicy ? ('embedded' as const) : ('outside' as const),
      everyProbeNeedsAKey: rules?.everyProbeNeedsAKey ?? true,
      networkIsTrusted: rules?.networkIsTrusted ?? false,
    };
  }

  /** What the schema cannot see: a filter against MQTT 5 section 4.7, and that it is none of ours. */
  function foreignProblem(foreign: readonly string[]): { pointer: string; detail: string } | undefined {
    for (const [index, filter] of foreign.entries()) {
      const first = filter.split('/')[0];
      const ours = first === root;
      const detail = ours ? `must not begin with ${first}, which is ours` : filterProblem(filter);
      if (detail !== undefined) return { pointer: `/foreign/${index}`, detail };
    }
    return undefined;
  }

  api.get('/api/keys', { config: { access: 'owner' }, schema: { response: { 200: keysAnswerSchema } } }, async () =>
    answer(),
  );

  api.post(
    '/api/keys',
    {
      config: { access: 'owner', does: 'made a key for probes' },
      schema: { body: newKeySchema, response: { 201: madeKeySchema } },
    },
    async (request, reply) => {
      const { name, ...reach } = request.body;
      const problem = foreignProblem(reach.foreign);
      if (problem) return sendProblem(reply, 422, `${problem.pointer} ${problem.detail}.`, { errors: [problem] });
      if (reach.site === null && reach.hears === 'own' && reach.foreign.length === 0) {
        const detail = 'must be named, as a key that neither speaks nor listens opens nothing';
        return sendProblem(reply, 422, `/site ${detail}.`, { errors: [{ pointer: '/site', detail }] });
      }
      const { secret, ...hashes } = newSecret();
      const key: ProbeKeyRecord = {
        id: `key-${randomLetters(10)}`,
        name,
        ...reach,
        ...hashes,
        madeAtMs: clock.nowMs(),
        madeBy: request.person?.name ?? null,
        revokedAtMs: null,
        revokedBy: null,
      };
      await journal.probeKeys.add(key);
      if (authPolicy) await renewKeys(authPolicy, journal);
      const broker = brokerAddress(parts.ingest, config.PUBLIC_URL, request.hostname);
      const { lines, example, address } = shownKey(key.id, reach, secret, broker, root);
      reply.header('cache-control', 'no-store'); // it holds a secret
      return reply
        .code(201)
        .send({ ...view(key), secret, broker, lines: [...lines], example, code: await qrPath(address) });
    },
  );

  api.delete(
    '/api/keys/:id',
    {
      config: { access: 'owner', does: 'revoked a key for probes' },
      schema: { params: z.object({ id: z.string().min(1).max(64) }), response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await journal.probeKeys.revoke(id, clock.nowMs(), request.person?.name ?? null))) {
        return notFound(reply, 'key in force', id);
      }
      if (authPolicy) await renewKeys(authPolicy, journal);
      return reply.code(204).send();
    },
  );

  api.put(
    '/api/keys/rule',
    {
      config: { access: 'owner', does: 'changed who needs a key at the broker' },
      schema: { body: authRuleSchema, response: { 200: keysAnswerSchema } },
    },
    async (request, reply) => {
      if (!authPolicy)
        return sendProblem(reply, 409, 'The broker is your own, so its own settings say who needs a key.');
      await keepEveryProbeNeedsAKey(journal, request.body.everyProbeNeedsAKey);
      authPolicy.setEveryProbeNeedsAKey(request.body.everyProbeNeedsAKey);
      return answer();
    },
  );

  const plainText = 'text/plain; charset=utf-8';
  const aboutMosquitto = (summary: string) => ({ config: { access: 'owner' as const }, schema: { summary } });

  api.get(
    '/api/keys/mosquitto/passwords',
    aboutMosquitto('The keys in force as a password file for Mosquitto'),
    async (_request, reply) => {
      const text = passwordFile(await journal.probeKeys.list(), installationAccount);
      return reply.headers(attachment('branhearth.passwd', plainText)).send(text);
    },
  );

  api.get(
    '/api/keys/mosquitto/topics',
    aboutMosquitto('What each key may publish and read, as an access file for Mosquitto'),
    async (_request, reply) => {
      const text = accessFile(await journal.probeKeys.list(), root, installationAccount);
      return reply.headers(attachment('branhearth.acl', plainText)).send(text);
    },
  );

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
