/** People, how they come in, what they are signed in with, and what they changed. */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { languages } from '../messages/made/languages.ts';
import { messageSchema } from '../messages/message.ts';
import { passwordLengths } from '../password-lengths.ts';
import { auditedWays, personSchema, roleSchema, scopeSchema } from '../person.ts';
import { instantInputSchema, instantSchema } from './time.ts';

/** As others see it; letters that cannot be seen are refused, so that nobody passes for somebody else. */
const personNameSchema = z
  .string()
  .trim()
  .min(1)
  .max(60)
  .regex(/^[^\p{C}\p{Zl}\p{Zp}]*$/u, fieldCode('field.seen-letters'));

const passwordSchema = z
  .string()
  .min(1)
  .max(passwordLengths.max * 4);
const secretSchema = z.string().regex(/^[A-Za-z0-9_-]{43}$/, fieldCode('field.secret'));
const idSchema = z.string().min(1).max(64);

/** GET /api/session, open to everyone: who asks, and which way in there is. */
export const sessionAnswerSchema = z.object({
  person: personSchema.nullable(),
  /** Whether somebody has been set up as owner. */
  hasOwner: z.boolean(),
  /** Whether a token of the environment is set, which opens everything. */
  hasToken: z.boolean(),
});
export type SessionAnswer = z.infer<typeof sessionAnswerSchema>;

export const signInSchema = z.object({ name: z.string().min(1).max(200), password: passwordSchema });

export const linkLookSchema = z.object({ secret: secretSchema });
export const linkShownSchema = z.object({
  kind: z.enum(['setup', 'invitation', 'reset']),
  role: roleSchema,
  /** Of the person whose password it resets. */
  name: z.string().nullable(),
  madeBy: z.string().nullable(),
  endsAt: instantSchema,
});
export const linkUseSchema = z.object({
  secret: secretSchema,
  name: personNameSchema.optional(),
  password: passwordSchema,
});

/** A link just made: its address is shown this once. */
export const newLinkAnswerSchema = z.object({
  id: z.string(),
  role: roleSchema,
  address: z.string(),
  endsAt: instantSchema,
});

export const newInvitationSchema = z.object({
  role: roleSchema,
  /** How long the link may be used [days]. */
  days: z.number().int().min(1).max(30).default(7),
});
const invitationSchema = z.object({
  id: z.string(),
  role: roleSchema,
  madeBy: z.string().nullable(),
  madeAt: instantSchema,
  endsAt: instantSchema,
});
export const invitationsAnswerSchema = z.object({ invitations: z.array(invitationSchema) });

export const memberSchema = z.object({
  id: z.string(),
  name: z.string(),
  role: roleSchema,
  since: instantSchema,
  /** When they were last seen, by a session that still stands. */
  seenAt: instantSchema.nullable(),
});
export type Member = z.infer<typeof memberSchema>;
/** Whose row in the database is damaged: they cannot sign in, and can only be removed. */
const damagedMemberSchema = memberSchema.pick({ id: true, name: true });
export type DamagedMember = z.infer<typeof damagedMemberSchema>;
export const peopleAnswerSchema = z.object({ people: z.array(memberSchema), damaged: z.array(damagedMemberSchema) });
export const memberChangeSchema = z
  .object({ name: personNameSchema.optional(), role: roleSchema.optional() })
  .refine(({ name, role }) => name !== undefined || role !== undefined, fieldCode('field.change-something'));

/** How somebody reads, wherever they sign in and whatever is sent to them. */
export const readingSchema = z.object({
  /** Of those that there are (BCP 47); null leaves it to their browser. */
  language: z.enum(languages).nullable(),
});

const standingSessionSchema = z.object({
  id: z.string(),
  /** Whether it is the one that asks. */
  isThis: z.boolean(),
  since: instantSchema,
  seenAt: instantSchema,
  endsAt: instantSchema,
  address: z.string(),
  agent: z.string(),
});
export type StandingSession = z.infer<typeof standingSessionSchema>;
export const sessionsAnswerSchema = z.object({ sessions: z.array(standingSessionSchema) });
export const endedAnswerSchema = z.object({ ended: z.number().int() });

export const passwordChangeSchema = z.object({ current: passwordSchema, next: passwordSchema });

export const newTokenSchema = z.object({
  name: z.string().trim().min(1).max(60),
  scope: scopeSchema,
  /** How long it may be used [days]; without end when absent. */
  days: z.number().int().min(1).max(3660).optional(),
  /** Once more, as a token outlasts the session: whoever found a phone signed in must not make one. */
  password: passwordSchema,
});
const apiTokenSchema = z.object({
  id: z.string(),
  name: z.string(),
  scope: scopeSchema,
  /** Who answers for it. */
  personId: z.string(),
  personName: z.string(),
  madeAt: instantSchema,
  usedAt: instantSchema.nullable(),
  endsAt: instantSchema.nullable(),
});
export type ApiToken = z.infer<typeof apiTokenSchema>;
export const tokensAnswerSchema = z.object({ tokens: z.array(apiTokenSchema) });
/** A token just made: its secret is shown this once. */
export const newTokenAnswerSchema = apiTokenSchema.extend({ secret: z.string() });

/** By what a device was signed up for notifications: one that stands, one that ran out, or before that was kept. */
const signedUpBy = ['session', 'token', 'over', 'unknown'] as const;
const heldDeviceSchema = z.object({
  id: z.string(),
  label: z.string(),
  addedAt: instantSchema,
  lastOkAt: instantSchema.nullable(),
  by: z.enum(signedUpBy),
});
export type HeldDevice = z.infer<typeof heldDeviceSchema>;
/** All that opens the pages for a person, or tells them something. */
export const heldAnswerSchema = z.object({
  sessions: z.array(standingSessionSchema),
  tokens: z.array(apiTokenSchema),
  devices: z.array(heldDeviceSchema),
});
export const heldEndedSchema = z.object({
  sessions: z.number().int(),
  tokens: z.number().int(),
  devices: z.number().int(),
});

export const auditQuerySchema = z.object({
  person: idSchema.optional(),
  words: z.string().trim().min(1).max(100).optional(),
  from: instantInputSchema.optional(),
  /** Excluded. */
  to: instantInputSchema.optional(),
  limit: z.coerce.number().int().min(1).max(500).default(100),
  /** `next` of the answer before. */
  after: z.string().max(64).optional(),
});
const auditEntrySchema = z.object({
  id: z.string(),
  at: instantSchema,
  personId: z.string().nullable(),
  personName: z.string(),
  via: z.enum(auditedWays),
  what: z.string(),
  messages: z.object({ what: messageSchema, personName: messageSchema.optional() }),
  subject: z.string().nullable(),
  /** What people call it, where it has a name. */
  subjectName: z.string().nullable(),
  address: z.string().nullable(),
  before: z.unknown(),
  after: z.unknown(),
});
export type AuditEntry = z.infer<typeof auditEntrySchema>;
/** Newest first. */
export const auditAnswerSchema = z.object({ entries: z.array(auditEntrySchema), next: z.string().nullable() });
