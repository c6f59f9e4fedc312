/** An entry while it is being written, and the entry it becomes. */
import { z } from 'zod';
import { type NewEntry, newEntrySchema } from '../../../../shared/contracts/journal.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { type EntryFacts, type EntryKind, entryKindSchema, entryLimits } from '../../../../shared/entry.ts';
import type { FieldIssue } from '../../../../shared/messages/field-fault.ts';
import { fieldWords } from '../../data/field-words.ts';
import { readMeasure, typed } from '../../data/plan-units.ts';
import { readNumber } from '../../data/read-number.ts';
import type { JournalWords } from './use-journal-words.ts';

/** Every field of every kind; '' is not said. */
export const entryDraftSchema = z
  .object({
    kind: entryKindSchema,
    /** Where a thermometer was held, what it showed, and what a meter showed beside it. */
    position: z.string(),
    temperature: z.string(),
    moisture: z.string(),
    amount: z.string(),
    depth: z.string(),
    cover: z.string(),
    place: z.string(),
    feel: z.string(),
    smells: z.array(z.string()).readonly(),
    colour: z.string(),
    otherColour: z.string(),
    howMany: z.string(),
    what: z.string(),
    wetG: z.string(),
    dryG: z.string(),
    smell: z.string(),
    look: z.string(),
    ready: z.enum(['', 'yes', 'no']),
    /** Of a verdict: which batch it judges, how it came out, and why. */
    batchId: z.string(),
    verdict: z.string(),
    why: z.string(),
    note: z.string(),
    photoIds: z.array(z.string()).readonly(),
  })
  .readonly();
export type EntryDraft = z.infer<typeof entryDraftSchema>;

export function emptyEntry(kind: EntryKind): EntryDraft {
  return {
    kind,
    position: 'core', // what a pile is judged by
    temperature: '',
    moisture: '',
    amount: '',
    depth: '',
    cover: '',
    place: '',
    feel: '',
    smells: [],
    colour: '',
    otherColour: '',
    howMany: '',
    what: '',
    wetG: '',
    dryG: '',
    smell: '',
    look: '',
    ready: '',
    batchId: '',
    verdict: '',
    why: '',
    note: '',
    photoIds: [],
  };
}

/** Leaves out what was not said. */
function said(facts: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined && value !== ''));
}

function factsOf(draft: EntryDraft, units: PlanUnits): Record<string, unknown> {
  const { kind } = draft;
  switch (kind) {
    case 'watered':
      return said({ kind, amountL: readMeasure('volumeL', draft.amount, units) });
    case 'rained':
      return said({ kind, rainMm: readMeasure('rainMm', draft.amount, units) });
    case 'spread':
    case 'heaped':
      return said({ kind, depthM: readMeasure('depthM', draft.depth, units) });
    case 'covered':
      return said({ kind, cover: draft.cover });
    case 'moved':
      return said({ kind, place: draft.place.trim() });
    case 'squeeze':
      return said({ kind, feel: draft.feel, place: draft.place });
    case 'smell':
      return said({ kind, smells: draft.smells });
    case 'growth':
      return said({
        kind,
        colour: draft.colour,
        otherColour: draft.colour === 'other' ? draft.otherColour.trim() : '',
        place: draft.place,
        amount: draft.howMany,
      });
    case 'pests':
      return said({ kind, what: draft.what.trim(), amount: draft.howMany });
    case 'sample':
      return said({ kind, wetG: readNumber(draft.wetG), dryG: readNumber(draft.dryG) });
    case 'measured':
      return said({
        kind,
        position: draft.position,
        temperatureC: readMeasure('tempC', draft.temperature, units),
        moisturePct: readNumber(draft.moisture),
      });
    case 'readiness':
      return said({
        kind,
        smell: draft.smell,
        look: draft.look,
        ready: draft.ready === '' ? undefined : draft.ready === 'yes',
      });
    case 'verdict':
      return said({ kind, batchId: draft.batchId, verdict: draft.verdict, why: draft.why });
    default:
      return { kind };
  }
}

/** What to do about a field that cannot be used as it stands. */
const wanted = {
  '/what/position': 'page-journal.wanted.position',
  '/what/temperatureC': 'page-journal.wanted.temperature',
  '/what/moisturePct': 'page-journal.wanted.moisture',
  '/what/amountL': 'page-journal.wanted.water',
  '/what/dryG': 'page-journal.wanted.dry',
  '/what/place': 'page-journal.wanted.place',
  '/what/otherColour': 'page-journal.wanted.other-colour',
  '/what/feel': 'page-journal.wanted.feel',
  '/what/smells': 'page-journal.wanted.smells',
  '/what/colour': 'page-journal.wanted.colour',
  '/what/what': 'page-journal.wanted.pests',
  '/what/wetG': 'page-journal.wanted.wet',
  '/what/smell': 'page-journal.wanted.smell',
  '/what/look': 'page-journal.wanted.look',
  '/what/ready': 'page-journal.wanted.ready',
  '/note': 'page-journal.wanted.note',
  '/photoIds': 'page-journal.wanted.photo',
} as const;
const isWanted = (pointer: string): pointer is keyof typeof wanted => pointer in wanted;

function wantedWords(pointer: string, issue: FieldIssue, { text }: Words): string {
  if (pointer === '/what/rainMm') return text('page-journal.wanted.rain', { mostMm: entryLimits.rainMm });
  if (pointer === '/what/depthM') return text('page-journal.wanted.depth', { mostCm: 100 * entryLimits.depthM });
  return isWanted(pointer) ? text(wanted[pointer]) : fieldWords(issue);
}

type Words = Pick<JournalWords, 'text'>;

export type Checked =
  | { readonly entry: NewEntry; readonly errors: ReadonlyMap<string, string> }
  | { readonly entry: undefined; readonly errors: ReadonlyMap<string, string> };

/** @param at When it happened [epoch ms]. */
export function checkedEntry(draft: EntryDraft, units: PlanUnits, at: number, by: string, words: Words): Checked {
  const entry = {
    at: new Date(at).toISOString(),
    ...said({ by: by.trim(), note: draft.note.trim() }),
    photoIds: [...draft.photoIds],
    what: factsOf(draft, units),
  };
  const checked = newEntrySchema.safeParse(entry);
  if (checked.success) return { entry: entry as NewEntry, errors: new Map() };
  const errors = new Map<string, string>();
  for (const issue of checked.error.issues) {
    const pointer = `/${issue.path.join('/')}`;
    if (!errors.has(pointer)) errors.set(pointer, wantedWords(pointer, issue, words));
  }
  return { entry: undefined, errors };
}

export function draftOf(
  { what, note, photoIds }: { what: EntryFacts; note: string | null; photoIds: readonly string[] },
  units: PlanUnits,
): EntryDraft {
  const draft = { ...emptyEntry(what.kind), note: note ?? '', photoIds };
  switch (what.kind) {
    case 'watered':
      return { ...draft, amount: typed('volumeL', what.amountL, units) };
    case 'rained':
      return { ...draft, amount: typed('rainMm', what.rainMm, units) };
    case 'spread':
    case 'heaped':
      return { ...draft, depth: typed('depthM', what.depthM, units) };
    case 'covered':
      return { ...draft, cover: what.cover ?? '' };
    case 'moved':
      return { ...draft, place: what.place ?? '' };
    case 'squeeze':
      return { ...draft, feel: what.feel, place: what.place ?? '' };
    case 'smell':
      return { ...draft, smells: what.smells };
    case 'growth':
      return {
        ...draft,
        colour: what.colour,
        otherColour: what.otherColour ?? '',
        place: what.place ?? '',
        howMany: what.amount ?? '',
      };
    case 'pests':
      return { ...draft, what: what.what, howMany: what.amount ?? '' };
    case 'sample':
      return { ...draft, wetG: String(what.wetG), dryG: what.dryG === undefined ? '' : String(what.dryG) };
    case 'measured':
      return {
        ...draft,
        position: what.position,
        temperature: typed('tempC', what.temperatureC, units, 5),
        moisture: what.moisturePct === undefined ? '' : String(what.moisturePct),
      };
    case 'readiness':
      return { ...draft, smell: what.smell, look: what.look, ready: what.ready ? 'yes' : 'no' };
    case 'verdict':
      return { ...draft, batchId: what.batchId, verdict: what.verdict, why: what.why ?? '' };
    default:
      return draft;
  }
}
