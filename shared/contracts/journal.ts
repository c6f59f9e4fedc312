/**
 * Entries of the journal: what was done and seen, by whom and when, with every earlier version.
 *
 * A client sends its own `id` with an entry: sent again, nothing changes and the same answer comes back. So an entry
 * made out of reach can be sent until an answer arrives. `at` is when it happened, not when it was sent.
 */
import { z } from 'zod';
import { entryFactsSchema, entryKindSchema } from '../entry.ts';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { instantInputSchema, instantSchema } from './time.ts';

/** Chosen by the client, e.g. crypto.randomUUID(). */
export const clientIdSchema = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/, fieldCode('field.client-id'));

/** Photos that one entry may carry. */
export const mostPhotos = 6;

const whoSchema = z.string().trim().min(1).max(80);
const noteSchema = z.string().trim().max(2000);

const entryContent = {
  /** When it happened; the time of arrival when absent. */
  at: instantInputSchema.optional(),
  by: whoSchema.optional(),
  note: noteSchema.optional(),
  /** Sent before the entry with PUT /api/photos/:id. */
  photoIds: z.array(clientIdSchema).max(mostPhotos).default([]),
  what: entryFactsSchema,
};

type Content = z.output<z.ZodObject<typeof entryContent>>;

function mustBeWhole({ what, note, photoIds }: Content, context: z.RefinementCtx): void {
  const refuse = (path: (string | number)[], message: string) => context.addIssue({ code: 'custom', path, message });
  if (what.kind === 'note' && !note) refuse(['note'], fieldCode('field.note'));
  if (what.kind === 'photo' && photoIds.length === 0) refuse(['photoIds'], fieldCode('field.photo'));
  if (what.kind === 'sample' && what.dryG !== undefined && what.dryG > what.wetG) {
    refuse(['what', 'dryG'], fieldCode('field.dry-over-wet'));
  }
  if (what.kind === 'readiness' && what.ready && (what.smell === 'bad' || what.look === 'bad')) {
    refuse(['what', 'ready'], fieldCode('field.ready-while-bad'));
  }
  if (what.kind === 'verdict' && what.why === undefined && !note) refuse(['note'], fieldCode('field.verdict-why'));
}

export const newEntrySchema = z.object({ id: clientIdSchema.optional(), ...entryContent }).superRefine(mustBeWhole);
export type NewEntry = z.input<typeof newEntrySchema>;

/** Takes the place of the version named by `replaces`; refused with 409 when that is no longer the newest. */
export const correctionSchema = z
  .object({
    id: clientIdSchema.optional(),
    replaces: z.string().min(1).max(64),
    /** Why it is corrected. */
    reason: z.string().trim().max(500).optional(),
    ...entryContent,
  })
  .superRefine(mustBeWhole);

/** Strikes an entry out; it stays readable in its history. */
export const withdrawalSchema = z.object({
  id: clientIdSchema.optional(),
  replaces: z.string().min(1).max(64),
  by: whoSchema.optional(),
  reason: z.string().trim().max(500).optional(),
});

const entryVersionSchema = z.object({
  /** Of this version; name it as `replaces` when correcting. */
  versionId: z.string(),
  version: z.number().int().min(1),
  at: instantSchema,
  /** When it reached us. */
  recordedAt: instantSchema,
  by: z.string().nullable(),
  note: z.string().nullable(),
  photoIds: z.array(z.string()),
  what: entryFactsSchema,
  /** One plain phrase, e.g. "Watered, 8 L"; metric. */
  says: z.string(),
  messages: z.object({ says: messageSchema }).optional(),
  /** Of a weighed and dried sample, wet basis. */
  moistureFrac: z.number().nullable(),
  /** Why the version before was replaced. */
  reason: z.string().nullable(),
  withdrawn: z.boolean(),
});
export type EntryVersion = z.infer<typeof entryVersionSchema>;

/** An entry as it stands now; `id` stays through every correction. */
export const entrySchema = entryVersionSchema.extend({
  id: z.string(),
  pileId: z.string(),
  /** The batch that lay there then; of a verdict the batch that it judges. */
  batchId: z.string().nullable(),
});
export type Entry = z.infer<typeof entrySchema>;

export const entryDetailSchema = z.object({
  entry: entrySchema,
  /** What it said before, newest first; empty when never corrected. */
  earlier: z.array(entryVersionSchema),
});

export const entriesQuerySchema = z.object({
  from: instantInputSchema.optional(),
  to: instantInputSchema.optional(),
  kind: entryKindSchema.optional(),
  /** Struck-out entries too. */
  withdrawn: z.enum(['yes', 'no']).default('no'),
  limit: z.coerce.number().int().min(1).max(500).default(100),
  /** `next` of the answer before. */
  after: z.string().max(120).optional(),
});

/** Newest first. */
export const entriesAnswerSchema = z.object({ entries: z.array(entrySchema), next: z.string().nullable() });
export type EntriesAnswer = z.infer<typeof entriesAnswerSchema>;

/**
 * Entries that waited out of reach, in any order, for any piles; each as POST /api/piles/:id/entries takes it, and the id is
 * a must. Each is checked by itself, so that one that cannot be kept does not hold back the others.
 */
export const queuedEntriesSchema = z.object({
  entries: z
    .array(z.object({ pileId: z.string().min(1).max(64), entry: z.looseObject({ id: clientIdSchema }) }))
    .min(1)
    .max(100),
  /** Id of the person who wrote them. Anybody else is answered 403 and nothing is kept: they would stand under a wrong name. */
  writer: z.string().min(1).max(100).optional(),
});
export interface QueuedEntry {
  readonly pileId: string;
  readonly entry: NewEntry & { readonly id: string };
}

const queuedOutcomes = ['kept', 'known', 'refused'] as const;
export type QueuedOutcome = (typeof queuedOutcomes)[number];
export const queuedAnswerSchema = z.object({
  /** In the order sent. Refused ones will be refused again: show them to the person. */
  outcomes: z.array(
    z.object({
      id: z.string(),
      outcome: z.enum(queuedOutcomes),
      detail: z.string().nullable(),
      pointer: z.string().nullable(),
      /** Absent in answers of servers before. */
      messages: z.object({ detail: messageSchema.nullable() }).optional(),
    }),
  ),
});
export type QueuedAnswer = z.infer<typeof queuedAnswerSchema>;

export const photoTypes = ['image/jpeg', 'image/png', 'image/webp'] as const;
/** Largest photo taken in [bytes], and its largest size [pixels]; kept with its longer side at most so long. */
export const photoLimits = { bytes: 15_000_000, pixels: 50_000_000, keptSide: 1600, smallSide: 320 } as const;

export const photoSchema = z.object({
  id: z.string(),
  width: z.number().int(),
  height: z.number().int(),
  bytes: z.number().int(),
  /** Addresses of the photo and of a small one, both image/jpeg; they want the API token like every other address. */
  url: z.string(),
  smallUrl: z.string(),
});
export type Photo = z.infer<typeof photoSchema>;

export const photoQuerySchema = z.object({ size: z.enum(['whole', 'small']).default('whole') });
