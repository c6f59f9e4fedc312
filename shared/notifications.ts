/** The words of notifications: why, by which channel, how it went. */
import { z } from 'zod';
import { isHttpAddress } from './http-address.ts';
import { mailAddressPattern } from './mail-address.ts';
import { fieldCode } from './messages/field-code.ts';
import { serviceChannels } from './notification-services/services.ts';
import { severities, severitySchema, warningKindSchema } from './warning.ts';
import { isTimeZone } from './zoned-time.ts';

/** Why there is something to tell, or that there is not. */
const notifyReasons = ['first-raise', 'got-worse', 'reminder-due', 'cleared', 'nothing-new'] as const;
export type NotifyReason = (typeof notifyReasons)[number];

/** Why somebody was notified. */
export const noticeReasons = [
  'first-raise',
  'got-worse',
  'reminder-due',
  'cleared',
  'handed-on',
  'not-reached',
  'summary',
  'measure-due',
  'test',
  'confirmation',
] as const;
export const noticeReasonSchema = z.enum(noticeReasons);
export type NoticeReason = z.infer<typeof noticeReasonSchema>;

export const noticeSubjects = ['alarm', 'site', 'server', 'person'] as const;
export type NoticeSubject = (typeof noticeSubjects)[number];

export const notificationChannels = ['push', 'email', 'webhook', ...serviceChannels] as const;
export const notificationChannelSchema = z.enum(notificationChannels);
export type NotificationChannel = z.infer<typeof notificationChannelSchema>;

/** `held`: waits for the end of quiet hours. `overtaken`: what it reported was over before it went out. */
export const messageStates = ['waiting', 'held', 'sent', 'given-up', 'overtaken'] as const;
export const messageStateSchema = z.enum(messageStates);
export type MessageState = z.infer<typeof messageStateSchema>;

/** `failed`: may go through later. `refused`: never will. */
export const attemptOutcomes = ['sent', 'failed', 'refused'] as const;
export const attemptOutcomeSchema = z.enum(attemptOutcomes);
export type AttemptOutcome = z.infer<typeof attemptOutcomeSchema>;

/** `before`: set before addresses were confirmed; warnings go on to it. `waiting`: nothing but codes is sent there. */
export const keptMailStandings = ['waiting', 'confirmed', 'before'] as const;
export type KeptMailStanding = (typeof keptMailStandings)[number];
/** `set-by-server`: by whoever runs the program, in its environment. */
const mailStandings = ['none', 'set-by-server', ...keptMailStandings] as const;
export const mailStandingSchema = z.enum(mailStandings);
export type MailStanding = z.infer<typeof mailStandingSchema>;

const minuteOfDay = z
  .number()
  .int()
  .min(0)
  .max(24 * 60 - 1);

const timeZoneSchema = z.string().max(64).refine(isTimeZone, fieldCode('field.time-zone'));

const mailAddressSchema = z
  .string()
  .trim()
  .max(254)
  .refine((text) => text === '' || mailAddressPattern.test(text), fieldCode('field.mail-address'));

const webhookUrlSchema = z
  .string()
  .trim()
  .max(2000)
  .refine((text) => text === '' || isHttpAddress(text), fieldCode('field.http'));

/** One person's preferences. The self-heating hazard passes kinds, severity and quiet hours whatever stands here. */
export const preferencesSchema = z.object({
  /** Kinds this person does not want to hear of. */
  withoutKinds: z.array(warningKindSchema).max(20).default([]),
  fromSeverity: severitySchema.default('notice'),
  /** Null: every site. */
  sites: z.array(z.string().max(64)).max(200).nullable().default(null),
  /** Minutes of the day on the person's clock; may reach over midnight. */
  quiet: z
    .object({ fromMin: minuteOfDay, toMin: minuteOfDay })
    .refine(({ fromMin, toMin }) => fromMin !== toMin, fieldCode('field.quiet-hours'))
    .nullable()
    .default(null),
  timeZone: timeZoneSchema.default('UTC'),
  unit: z.enum(['C', 'F']).default('C'),
  /** Whether hours are read with am and pm, as where the device is that they set this from. */
  hour12: z.boolean().default(false),
  /** Minutes between reminders while nobody has acknowledged; null for none. */
  remindEveryMin: z
    .number()
    .int()
    .min(5)
    .max(24 * 60)
    .nullable()
    .default(60),
  notifyCleared: z.boolean().default(true),
  /** Minute of the day of the daily summary; null for none. */
  summaryAtMin: minuteOfDay.nullable().default(null),
  /** Once for each time that a pile without a probe is due to be measured by hand. */
  measureReminders: z.boolean().default(false),
  /** Trouble of the server itself: disk, broker, delivery. Null: owners only. */
  installationTrouble: z.boolean().nullable().default(null),
  email: z.object({ on: z.boolean(), address: mailAddressSchema }).default({ on: false, address: '' }),
  push: z.object({ on: z.boolean() }).default({ on: true }),
  webhook: z.object({ on: z.boolean(), url: webhookUrlSchema }).default({ on: false, url: '' }),
});
export type Preferences = z.infer<typeof preferencesSchema>;

export const rankOf = (severity: (typeof severities)[number]): number => severities.indexOf(severity);
export const severityOfRank = (rank: number) => severities[rank] ?? 'danger';
