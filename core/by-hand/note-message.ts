/** What a bad note says; who noted it and when is said elsewhere. */
import { type EntryFacts, type growthPlaces, sampleMoistureFrac } from '../../shared/entry.ts';
import { type Message, message, verbatim } from '../../shared/messages/message.ts';
import type { NotedFacts } from '../profiles/noted.ts';
import { badOf } from './note-sign.ts';

type Growth = Extract<EntryFacts, { kind: 'growth' }>;
type Squeeze = Extract<EntryFacts, { kind: 'squeeze' }>;

/** Ammonia last, whatever was noted first. @example badSmells(['ammonia', 'earthy', 'rotten']) // => "rotten", "of ammonia" */
export function badSmells(smells: Parameters<typeof badOf>[0]): readonly Message[] {
  const bad = badOf(smells);
  const said = bad.filter((smell) => smell !== 'ammonia').map((smell) => message(`hand.smell.${smell}`));
  if (bad.includes('ammonia')) said.push(message('hand.smell.ammonia'));
  return said.length === 0 ? [message('hand.smell.bad')] : said;
}

/** A clause. @example "Black growth all through it, many patches" */
export function growthMessage({ colour, otherColour, place, amount }: Omit<Growth, 'kind'>): Message {
  const colourCapitalPart =
    colour === 'other' && otherColour !== undefined ? verbatim(otherColour) : message(`hand.colour.${colour}`);
  return message('hand.growth', { colourCapitalPart, place: placeOf(place), amount: amount ?? 'other' });
}

/** What was found, as a whole sentence. */
export function foundMessage(what: NotedFacts): Message {
  switch (what.kind) {
    case 'squeeze':
      return message(squeezed[what.feel], { place: placeOf(what.place) });
    case 'sample':
      return what.dryG === undefined
        ? message('hand.found.sample-not-dried')
        : message('hand.found.sample', { moistureFrac: sampleMoistureFrac(what.wetG, what.dryG) });
    case 'smell':
      return message('hand.found.smell', { smellsList: badSmells(what.smells) });
    case 'growth':
      return message('hand.found.growth', { growthPart: growthMessage(what) });
    case 'readiness':
      return message('hand.found.judged', { smell: what.smell, look: what.look });
  }
}

const squeezed = {
  crumbles: 'hand.found.crumbled',
  holds: 'hand.found.held',
  drips: 'hand.found.dripped',
  pours: 'hand.found.poured',
} as const satisfies Record<Squeeze['feel'], string>;

/** As the texts choose by it, whose keys hold no hyphen. */
const placeOf = (place: (typeof growthPlaces)[number] | undefined) =>
  place === undefined ? 'other' : place === 'all-through' ? 'through' : place;
