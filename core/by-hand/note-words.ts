/** What a bad note says, as parts of sentences; who noted it and when is said elsewhere. */
import { type EntryFacts, sampleMoistureFrac } from '../../shared/entry.ts';
import type { NotedFacts } from '../profiles/noted.ts';
import { percent } from '../words/words.ts';
import { badOf } from './verdict.ts';

type Growth = Extract<EntryFacts, { kind: 'growth' }>;

const places = {
  skin: 'on its skin',
  edge: 'at its edge',
  core: 'in its core',
  base: 'at its base',
  'all-through': 'all through it',
} as const;

const amounts = { few: 'a few patches', some: 'some patches', many: 'many patches' } as const;

/** Ammonia last, whatever was noted first. @example smellWords(['ammonia', 'earthy', 'rotten']) // => "rotten and of ammonia" */
export function smellWords(smells: Parameters<typeof badOf>[0]): string {
  const bad = badOf(smells);
  const words: string[] = bad.filter((smell) => smell !== 'ammonia');
  if (bad.includes('ammonia')) words.push('of ammonia');
  return words.length < 2 ? (words[0] ?? 'bad') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** @example growthWords({ colour: 'black', place: 'all-through', amount: 'many' }) // => "Black growth all through it, many patches" */
export function growthWords({ colour, otherColour, place, amount }: Omit<Growth, 'kind'>): string {
  const named = colour === 'other' ? (otherColour ?? 'coloured') : colour;
  const where = place === undefined ? '' : ` ${places[place]}`;
  const many = amount === undefined ? '' : `, ${amounts[amount]}`;
  return `${named.charAt(0).toUpperCase()}${named.slice(1)} growth${where}${many}`;
}

/** What was found, as a whole sentence. */
export function foundWords(what: NotedFacts): string {
  switch (what.kind) {
    case 'squeeze':
      return squeezeFound[what.feel](what.place === undefined ? '' : ` ${fromPlaces[what.place]}`);
    case 'sample':
      return `A weighed sample holds ${what.dryG === undefined ? 'an unknown share of' : percent(sampleMoistureFrac(what.wetG, what.dryG))} water.`;
    case 'smell':
      return `It smelt ${smellWords(what.smells)}.`;
    case 'growth':
      return `${growthWords(what)}.`;
    case 'readiness':
      return `Its smell was judged ${what.smell}, its look ${what.look}.`;
  }
}

const fromPlaces = {
  skin: 'from the skin',
  edge: 'from the edge',
  core: 'from the core',
  base: 'from the base',
  'all-through': 'from all through it',
} as const;

const squeezeFound = {
  crumbles: (from: string) => `A squeezed handful${from} crumbled.`,
  holds: (from: string) => `A squeezed handful${from} held together.`,
  drips: (from: string) => `A squeezed handful${from} dripped.`,
  pours: (from: string) => `Water ran out of a squeezed handful${from}.`,
} as const;
