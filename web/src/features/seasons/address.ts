/**
 * A comparison as it stands in the address, so that a link is the whole comparison. It never trusts the query: what
 * cannot be read is taken as not said.
 */
import { z } from 'zod';
import { measureKeys } from '../../../../core/seasons/measure-keys.ts';
import { choiceSchema, splits } from '../../../../shared/contracts/seasons.ts';
import { addressWith, unusual } from '../../data/address-query.ts';
import { colourFacts } from './curve-groups.ts';

const sortKeys = ['verdict', 'name', 'startedAt', ...measureKeys] as const;
export type SortKey = (typeof sortKeys)[number];

const viewSchema = z.object({
  by: z.enum(['age', 'warming']).catch('age'),
  draw: z.enum(['over', 'apart']).catch('over'),
  /** By what curves have their colours: what parts these batches best, nothing, or this. */
  colour: z.enum(['best', 'none', ...colourFacts]).catch('best'),
  /** By verdict, the best go first. */
  sort: z.enum(sortKeys).catch('verdict'),
  order: z.enum(['down', 'up']).catch('down'),
  /** Only batches whose name or outcome holds this. */
  find: z.string().max(80).catch(''),
  /** Brought out among the curves, ids with commas between. */
  out: z.string().max(800).catch(''),
  split: z.enum(splits).or(z.literal('')).catch(''),
  one: z.string().max(80).catch(''),
  other: z.string().max(80).catch(''),
});
export type View = z.output<typeof viewSchema>;

const usual: View = viewSchema.parse({});

const choiceKeys = ['stage', 'site', 'season', 'year', 'material', 'starter', 'lineage', 'batches', 'state'] as const;
export type ChoiceKey = (typeof choiceKeys)[number];
export type ChoiceText = Partial<Record<ChoiceKey, string>>;

export interface Comparison {
  readonly choice: ChoiceText;
  readonly view: View;
}

export function readComparison(query: Record<string, string>): Comparison {
  const choice: ChoiceText = {};
  for (const key of choiceKeys) {
    const value = query[key];
    if (value && choiceSchema.shape[key].safeParse(value).success) choice[key] = value;
  }
  return { choice, view: viewSchema.parse(query) };
}

/** What the server is asked. */
export function choiceQuery(choice: ChoiceText): string {
  return new URLSearchParams(Object.entries(choice)).toString();
}

/** The address of a comparison, always in the same order. */
export function addressOf({ choice, view }: Comparison): string {
  return addressWith('/seasons', { ...choice, ...unusual(view, usual) });
}

export function idsIn(text: string): string[] {
  return text.split(',').filter(Boolean);
}
