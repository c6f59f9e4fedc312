/**
 * What the server publishes of piles by MQTT for programs, where an owner wants that: how each stands, retained, and
 * what happens, as events. Temperatures in °C, the rest in the unit that the field's name ends with.
 */
import { z } from 'zod';
import { entryKindSchema } from '../entry.ts';
import { nameSchema, positionSchema } from '../names.ts';
import { phaseSchema, severities, severitySchema, warningKindSchema } from '../warning.ts';
import { alarmSummarySchema, pileSummarySchema } from './piles.ts';
import { instantSchema } from './time.ts';

/** Grows when a field goes or means something else; a field more changes nothing. */
const version = z.literal(1);

/** Names of people stay here: whoever may listen at a broker may not be one of them. */
const publishedAlarmSchema = alarmSummarySchema.omit({ noted: true });

/** How a pile stands, on `<root>-state/<site>/<pile>`. */
export const pileStateSchema = pileSummarySchema.omit({ alarms: true }).extend({
  version,
  /** When this was worked out. */
  at: instantSchema,
  /** The worst of what stands, shelved or not. */
  alarm: z.enum(['calm', ...severities]),
  alarms: z.array(publishedAlarmSchema),
  /** The newest measurement of any position; null before any. */
  lastHeardAt: instantSchema.nullable(),
});
export type PileState = z.infer<typeof pileStateSchema>;

const ofPile = { version, at: instantSchema, site: nameSchema, pile: z.string() };

const alarmEventSchema = z.object({
  ...ofPile,
  event: z.enum(['alarm-raised', 'alarm-acknowledged', 'alarm-cleared']),
  alarm: z.object({
    id: z.string(),
    kind: warningKindSchema,
    severity: severitySchema,
    position: positionSchema.nullable(),
  }),
});

/** What happened at a pile, on `<root>-event/<site>/<pile>`. */
export const pileEventSchema = z.discriminatedUnion('event', [
  alarmEventSchema,
  z.object({
    ...ofPile,
    event: z.literal('phase-changed'),
    batch: z.string(),
    from: phaseSchema,
    to: phaseSchema,
  }),
  z.object({
    ...ofPile,
    event: z.literal('entry-written'),
    entry: z.object({
      /** Of the entry; a correction has the same, and a higher version. */
      id: z.string(),
      version: z.number().int(),
      kind: entryKindSchema,
      /** Of what it says, where `at` is when it was kept. */
      about: instantSchema,
      withdrawn: z.boolean(),
    }),
  }),
]);
export type PileEvent = z.infer<typeof pileEventSchema>;

/** Nothing, piles to look at, or with a button that acknowledges. It rests on states, which a hub reads. */
const hubChoices = ['off', 'looks-on', 'acknowledges'] as const;
export type HubChoice = (typeof hubChoices)[number];

/** What an owner wants published. Nothing until somebody chose. */
export const publishingSchema = z.object({
  /** States and events, for programs. */
  states: z.boolean(),
  /** Whether home automation hubs are shown the piles, and may acknowledge; absent until somebody chose. */
  hub: z.enum(hubChoices).optional(),
});
export type Publishing = z.infer<typeof publishingSchema>;

export const publishingAnswerSchema = publishingSchema.extend({
  /** Topics, with + for site and pile. */
  topics: z.object({ states: z.string(), events: z.string(), hub: z.string(), acknowledge: z.string() }),
});
export type PublishingAnswer = z.infer<typeof publishingAnswerSchema>;
