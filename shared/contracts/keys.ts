/** The broker's keys as the pages make, show and revoke them, and who was turned away there. */
import { z } from 'zod';
import { nameSchema } from '../names.ts';
import { keyHearings, keyReachSchema, mostForeignFilters } from '../probe-key.ts';
import { instantSchema } from './time.ts';

export const newKeySchema = z
  .object({
    /** What people call it. */
    name: z.string().trim().min(1).max(80),
  })
  .and(keyReachSchema);
export type NewKey = z.infer<typeof newKeySchema>;

const keySchema = z.object({
  /** Also the MQTT user name. */
  id: z.string(),
  name: z.string(),
  site: nameSchema.nullable(),
  probe: nameSchema.nullable(),
  foreign: z.array(z.string()).max(mostForeignFilters),
  hears: z.enum(keyHearings),
  madeAt: instantSchema,
  madeBy: z.string().nullable(),
  revokedAt: instantSchema.nullable(),
  revokedBy: z.string().nullable(),
  /** Connections that it has now, and when and from where it was seen last since this start; null with a broker of your own. */
  seen: z.object({ connected: z.number().int(), lastAt: instantSchema, address: z.string() }).nullable(),
});
export type Key = z.infer<typeof keySchema>;

export const keysAnswerSchema = z.object({
  keys: z.array(keySchema),
  /** `embedded`: keys work at once. `outside`: its broker decides, by files made from the keys. */
  authPolicy: z.enum(['embedded', 'outside']),
  everyProbeNeedsAKey: z.boolean(),
  /** The environment says that whoever reaches the broker may speak. */
  networkIsTrusted: z.boolean(),
});
export type KeysAnswer = z.infer<typeof keysAnswerSchema>;

/** The broker's address as a probe needs it. */
export const brokerAddressSchema = z.object({
  host: z.string(),
  port: z.number().int(),
  tls: z.boolean(),
  /** It can be reached from this machine only. */
  onlyHere: z.boolean(),
});
export type BrokerAddress = z.infer<typeof brokerAddressSchema>;

/** A key just made: the only time its secret is shown. */
export const madeKeySchema = keySchema.extend({
  secret: z.string(),
  broker: brokerAddressSchema,
  /** Name and value of each thing to enter at the probe. */
  lines: z.array(z.object({ name: z.string(), value: z.string() })),
  /** A command that tries the key. */
  example: z.string(),
  /** A QR code (ISO/IEC 18004) of the same as one address: modules a side, and the dark ones as an SVG path. */
  code: z.object({ size: z.number().int(), path: z.string() }),
});
export type MadeKey = z.infer<typeof madeKeySchema>;

export const authRuleSchema = z.object({ everyProbeNeedsAKey: z.boolean() });

export const refusedReasonSchema = z.enum([
  'no-key',
  'unknown-key',
  'wrong-secret',
  'revoked-key',
  'too-many',
  'too-many-of-key',
  'too-fast',
  'too-slow',
  'too-long-packet',
  'too-long-client-id',
  'too-much-under-way',
  'pages-port',
  'no-mqtt',
  'tls-at-plain-port',
  'plain-at-tls-port',
  'certificate-refused',
]);
export type RefusedReason = z.infer<typeof refusedReasonSchema>;

export const refusedConnectionSchema = z.object({
  reason: refusedReasonSchema,
  address: z.string(),
  clientId: z.string(),
  /** What the key is called that was named, where there is or was such a one. */
  key: z.string().nullable(),
  count: z.number().int(),
  lastAt: instantSchema,
});
export type RefusedConnection = z.infer<typeof refusedConnectionSchema>;

export const refusedConnectionsAnswerSchema = z.object({
  total: z.number().int(),
  /** The last first; at most 200. */
  turnedAway: z.array(refusedConnectionSchema),
});
