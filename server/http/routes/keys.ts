/** The broker's keys: made, listed, revoked, and who needs one. */
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../../ingest/ingest.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import {
  authRuleSchema,
  type KeysAnswer,
  keysAnswerSchema,
  type MadeKey,
  madeKeySchema,
  newKeySchema,
} from '../../../shared/contracts/keys.ts';
import { message } from '../../../shared/messages/message.ts';
import { qrPath } from '../../../shared/qr-path.ts';
import type { Journal, ProbeKeyRecord } from '../../../shared/store/journal.ts';
import { brokerAddress } from '../../services/probe-keys/broker-address.ts';
import { keyView } from '../../services/probe-keys/key-view.ts';
import { keepEveryProbeNeedsAKey, renewKeys } from '../../services/probe-keys/open-auth-policy.ts';
import { reachProblem } from '../../services/probe-keys/reach-problem.ts';
import { newSecret, randomLetters } from '../../services/probe-keys/secret.ts';
import { shownKey } from '../../services/probe-keys/show-key.ts';
import type { Api } from '../api.ts';
import { notFound, refuseField, sendProblem } from '../problem.ts';

interface KeysParts {
  readonly ingest: Ingest;
  readonly journal: Journal;
  readonly authPolicy: AuthPolicy | undefined;
  readonly clock: Clock;
  readonly config: Pick<Config, 'MQTT_ROOT' | 'PUBLIC_URL'>;
}

export function registerKeys(api: Api, parts: KeysParts): void {
  const { journal, authPolicy } = parts;

  api.get('/api/keys', { config: { access: 'owner' }, schema: { response: { 200: keysAnswerSchema } } }, async () =>
    keysAndRules(parts),
  );

  api.post(
    '/api/keys',
    {
      config: { access: 'owner', does: 'audit.did.made-key-for-probes' },
      schema: { body: newKeySchema, response: { 201: madeKeySchema } },
    },
    async (request, reply) => {
      const problem = reachProblem(request.body, parts.config.MQTT_ROOT);
      if (problem) return refuseField(reply, 422, problem);
      const made = await makeKey(parts, request, request.body);
      return reply.header('cache-control', 'no-store').code(201).send(made); // it holds a secret
    },
  );

  api.delete(
    '/api/keys/:id',
    {
      config: { access: 'owner', does: 'audit.did.revoked-key-for-probes' },
      schema: { params: z.object({ id: z.string().min(1).max(64) }), response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await journal.probeKeys.revoke(id, parts.clock.nowMs(), request.person?.name ?? null))) {
        return notFound(reply, 'key', id);
      }
      if (authPolicy) await renewKeys(authPolicy, journal);
      return reply.code(204).send();
    },
  );

  api.put(
    '/api/keys/rule',
    {
      config: { access: 'owner', does: 'audit.did.changed-who-needs-key-at-broker' },
      schema: { body: authRuleSchema, response: { 200: keysAnswerSchema } },
    },
    async (request, reply) => {
      if (!authPolicy) return sendProblem(reply, 409, message('problem.no-key-rule'));
      await keepEveryProbeNeedsAKey(journal, request.body.everyProbeNeedsAKey);
      authPolicy.setEveryProbeNeedsAKey(request.body.everyProbeNeedsAKey);
      return keysAndRules(parts);
    },
  );
}

async function keysAndRules({ journal, authPolicy }: KeysParts): Promise<KeysAnswer> {
  const rules = authPolicy?.rules();
  return {
    keys: (await journal.probeKeys.list()).map((key) => keyView(key, authPolicy)),
    authPolicy: authPolicy ? 'embedded' : 'outside',
    everyProbeNeedsAKey: rules?.everyProbeNeedsAKey ?? true,
    networkIsTrusted: rules?.networkIsTrusted ?? false,
  };
}

/** @returns The key with its secret, which is shown this once. */
async function makeKey(
  { ingest, journal, authPolicy, clock, config }: KeysParts,
  { person, hostname }: FastifyRequest,
  { name, ...reach }: z.output<typeof newKeySchema>,
): Promise<MadeKey> {
  const { secret, ...hashes } = newSecret();
  const key: ProbeKeyRecord = {
    id: `key-${randomLetters(10)}`,
    name,
    ...reach,
    ...hashes,
    madeAtMs: clock.nowMs(),
    madeBy: person?.name ?? null,
    revokedAtMs: null,
    revokedBy: null,
  };
  await journal.probeKeys.add(key);
  if (authPolicy) await renewKeys(authPolicy, journal);
  const broker = brokerAddress(ingest, config.PUBLIC_URL, hostname);
  const { lines, example, address } = shownKey(key.id, reach, secret, broker, config.MQTT_ROOT);
  return {
    ...keyView(key, authPolicy),
    secret,
    broker,
    lines: [...lines],
    example,
    code: await qrPath(address),
  };
}
