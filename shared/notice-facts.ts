/**
 * What is kept with a notice, for its words to be made of when it is sent: by what it is about.
 */
import { z } from 'zod';
import { epochMsSchema } from './epoch.ts';
import { keptMessageSchema } from './messages/message.ts';
import { positionSchema } from './names.ts';
import { type NoticeReason, type NoticeSubject, notificationChannelSchema } from './notifications.ts';
import { severitySchema, warningKindSchema } from './warning.ts';

/** Who could not be reached, where that is why somebody else is notified. */
const notReached = z.string().optional();

const siteFactsSchema = z.object({
  sinceMs: epochMsSchema,
  probeCount: z.number().int().min(0),
  pileNames: z.array(z.string()).readonly(),
  notReached,
});

const alarmFactsSchema = z.object({
  kind: warningKindSchema,
  position: positionSchema.nullable(),
  severity: severitySchema,
  seen: keptMessageSchema,
  todo: keptMessageSchema,
  byMs: epochMsSchema.nullable(),
  caution: keptMessageSchema.nullable(),
  raisedAtMs: epochMsSchema,
  noted: z.object({ atMs: epochMsSchema, by: z.string().nullable() }).optional(),
  /** Of its whole site, where that fell silent as a whole. */
  site: siteFactsSchema.optional(),
  notReached,
});

const installationFactsSchema = z.object({
  said: keptMessageSchema,
  todo: keptMessageSchema,
  short: keptMessageSchema,
});

const summaryFactsSchema = z.object({
  piles: z.array(
    z.object({
      name: z.string(),
      siteName: z.string(),
      condition: keptMessageSchema,
      next: keptMessageSchema,
      warnings: z.number().int().min(0),
    }),
  ),
});

/** A pile is due to be measured by hand. */
const measureFactsSchema = z.object({ due: keptMessageSchema });

/** Tests kept before channels were called so have `way`. */
const testFactsSchema = z.preprocess(
  withChannel,
  z.object({ channel: notificationChannelSchema, address: z.string().optional() }),
);

/** Of a code that is mailed: never the code itself. `askedAtMs` is the machine's. */
const codeFactsSchema = z.object({ codeFor: z.string(), askedAtMs: z.number() });

/** What was kept cannot be read any more; that there was something to tell still can. */
export const lostFacts = { lost: true } as const;

export type NoticeFacts =
  | z.infer<typeof siteFactsSchema>
  | z.infer<typeof alarmFactsSchema>
  | z.infer<typeof installationFactsSchema>
  | z.infer<typeof summaryFactsSchema>
  | z.infer<typeof measureFactsSchema>
  | z.infer<typeof testFactsSchema>
  | z.infer<typeof codeFactsSchema>
  | typeof lostFacts;

export function factsSchemaOf(about: NoticeSubject, answer: NoticeReason): z.ZodType<NoticeFacts> {
  if (answer === 'test') return testFactsSchema;
  if (answer === 'confirmation') return codeFactsSchema;
  if (answer === 'summary') return summaryFactsSchema;
  if (answer === 'measure-due') return measureFactsSchema;
  switch (about) {
    case 'site':
      return siteFactsSchema;
    case 'server':
      return installationFactsSchema;
    default:
      return alarmFactsSchema;
  }
}

function withChannel(kept: unknown): unknown {
  if (typeof kept !== 'object' || kept === null || !('way' in kept)) return kept;
  const { way, ...rest } = kept;
  return { channel: way, ...rest };
}
