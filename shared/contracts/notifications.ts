/** How each person is notified of warnings, and what became of every message. */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { serviceChannelSchema } from '../notification-services/services.ts';
import {
  attemptOutcomeSchema,
  mailStandingSchema,
  messageStateSchema,
  noticeReasonSchema,
  noticeSubjects,
  notificationChannelSchema,
  preferencesSchema,
} from '../notifications.ts';
import { instantSchema } from './time.ts';

export const pushDeviceSchema = z.object({
  id: z.string(),
  label: z.string(),
  addedAt: instantSchema,
  lastOkAt: instantSchema.nullable(),
});

/** How the e-mail address of one's preferences stands. */
export const mailAnswerSchema = z.object({
  standing: mailStandingSchema,
  /** Where mail goes now: until a new address is confirmed, to the one before. */
  goesTo: z.string().nullable(),
  /** Of the newest code. */
  sentAt: instantSchema.nullable(),
  codeEndsAt: instantSchema.nullable(),
});
export type MailAnswer = z.infer<typeof mailAnswerSchema>;
export const mailCodeSchema = z.object({
  code: z
    .string()
    .max(40)
    .regex(/^\D{0,8}\d{4}\D{0,4}\d{4}\D{0,8}$/, fieldCode('field.mail-code')),
});

/** A service that a person set up. */
export const serviceViewSchema = z.object({
  channel: serviceChannelSchema,
  on: z.boolean(),
  /** What is no secret. */
  values: z.record(z.string(), z.string()),
  /** Secrets that are kept; they are never given back. */
  secrets: z.array(z.string()),
});
export type ServiceView = z.infer<typeof serviceViewSchema>;

export const notificationsAnswerSchema = z.object({
  person: z.object({ id: z.string(), name: z.string(), isOwner: z.boolean() }),
  preferences: preferencesSchema,
  devices: z.array(pushDeviceSchema),
  services: z.array(serviceViewSchema),
  /** The public key that a device subscribes with. */
  pushKey: z.string(),
  mail: mailAnswerSchema,
  /** Whether there is a mail server. */
  canMail: z.boolean(),
  /** Whether messages can carry links that open elsewhere. */
  hasPublicAddress: z.boolean(),
});
export type NotificationsAnswer = z.infer<typeof notificationsAnswerSchema>;

const base64Url = z
  .string()
  .min(10)
  .max(200)
  .regex(/^[A-Za-z0-9_-]+=*$/, fieldCode('field.base64url'));
export const newPushDeviceSchema = z.object({
  endpoint: z.url({ protocol: /^https$/ }).max(1000),
  keys: z.object({ p256dh: base64Url, auth: base64Url }),
  label: z.string().trim().min(1).max(80),
});

export const deviceHereSchema = z.object({ endpoint: newPushDeviceSchema.shape.endpoint });
export const testAskSchema = z.object({ channel: notificationChannelSchema, address: z.string().max(2000).optional() });

const attemptViewSchema = z.object({
  number: z.number().int(),
  at: instantSchema,
  tookMs: z.number(),
  outcome: attemptOutcomeSchema,
  detail: z.string(),
  messages: z.object({ detail: messageSchema }),
});

const messageViewSchema = z.object({
  id: z.string(),
  person: z.string(),
  channel: notificationChannelSchema,
  address: z.string(),
  state: messageStateSchema,
  reason: z.string().nullable(),
  messages: z.object({ reason: messageSchema.nullable() }),
  madeAt: instantSchema,
  /** When it was sent, given up or overtaken. */
  doneAt: instantSchema.nullable(),
  /** Held until then. */
  notBefore: instantSchema,
  attempts: z.array(attemptViewSchema),
});
export type MessageView = z.infer<typeof messageViewSchema>;

export const notificationSchema = z.object({
  id: z.string(),
  about: z.enum(noticeSubjects),
  reason: noticeReasonSchema,
  at: instantSchema,
  /** `joined`: notified as part of another notice, such as that of its whole site. */
  state: z.enum(['new', 'fanned-out', 'joined', 'dropped', 'set-aside']),
  messages: z.array(messageViewSchema),
});
export type NotificationView = z.infer<typeof notificationSchema>;

export const alarmLinkAnswerSchema = z.object({ notices: z.array(notificationSchema) });

const undeliveredSchema = messageViewSchema.extend({
  /** What it would have said. */
  sentence: z.string(),
  pileId: z.string().nullable(),
});
export const undeliveredAnswerSchema = z.object({ messages: z.array(undeliveredSchema) });

export const recipientsSchema = z.object({
  people: z.array(z.object({ id: z.string(), name: z.string(), channels: z.array(notificationChannelSchema) })),
});

export const escalationSchema = z.object({
  personIds: z.array(z.string().max(100)).max(50),
  afterMin: z
    .number()
    .int()
    .min(1)
    .max(24 * 60),
});
export const escalationAnswerSchema = z.object({ escalations: z.array(escalationSchema.extend({ site: z.string() })) });

const hostAndPort = z
  .string()
  .trim()
  .max(260)
  .regex(/^(?:\[[0-9a-f:.]+\]|[a-z0-9.-]+):\d{1,5}$/, fieldCode('field.host-and-port'));
export const serverNotificationsSchema = z.object({
  /** Addresses of this machine or its network that messages may be sent to. */
  allowedAddresses: z.array(hostAndPort).max(50),
  /** Called every minute while all is well. */
  heartbeatUrl: z.string().trim().max(2000).nullable(),
});
export const serverNotificationsAnswerSchema = serverNotificationsSchema.extend({
  heartbeat: z.object({
    state: z.enum(['off', 'ok', 'held', 'failing']),
    detail: z.string(),
    messages: z.object({ detail: messageSchema }),
  }),
});
