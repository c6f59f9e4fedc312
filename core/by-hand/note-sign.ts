/**
 * What one note says of each bad sign: that it is there, that it is not, or nothing. Which growth and which smells are bad is
 * read second-hand in extension bulletins (white good; black, green and bright colours discarded) or common practice, no source
 * (sour, rotten, ammonia); a note that is only doubtful, such as a musty smell, changes nothing.
 */
import { type EntryFacts, type judgements, sampleMoistureFrac } from '../../shared/entry.ts';
import type { StageLimits } from '../../shared/stage.ts';
import type { HandKind, Severity } from '../../shared/warning.ts';
import type { NotedFacts } from '../profiles/noted.ts';

export type NoteSign = 'bad' | 'good' | null;

type Smell = Extract<EntryFacts, { kind: 'smell' }>['smells'][number];

const badSmells = ['rotten', 'ammonia', 'sour'] as const satisfies readonly Smell[];
type BadSmell = (typeof badSmells)[number];
const goodSmells: readonly Smell[] = ['sweet', 'fermented', 'earthy', 'mushroom', 'faint'];

/**
 * A sample differs by about two points from place to place: so far outside the band it still says nothing against the bed [-];
 * our own choice, no source.
 */
export const sampleMarginFrac = 0.02;

export function signOf(kind: HandKind, what: NotedFacts, limits: StageLimits): NoteSign {
  switch (kind) {
    case 'hand-dry':
      return signBy(dampness(what, limits), 'dry');
    case 'hand-wet':
      return signBy(dampness(what, limits), 'wet');
    case 'bad-smell':
      return signBy(smellOf(what), 'bad');
    case 'wrong-growth':
      return signBy(lookOf(what), 'bad');
  }
}

type Judged = (typeof judgements)[number];

/** What a note judges the smell to be; null where it says nothing of it. */
export function smellOf(what: NotedFacts): Judged | null {
  if (what.kind === 'readiness') return what.smell;
  if (what.kind !== 'smell') return null;
  if (badOf(what.smells).length > 0) return 'bad';
  return what.smells.every((smell) => goodSmells.includes(smell)) ? 'good' : 'doubtful';
}

/** What a note judges the look to be; null where it says nothing of it. */
export function lookOf(what: NotedFacts): Judged | null {
  if (what.kind === 'readiness') return what.look;
  return what.kind === 'growth' ? (what.colour === 'white' ? 'good' : 'bad') : null;
}

/** @example badOf(['earthy', 'ammonia']) // => ['ammonia'] */
export function badOf(smells: readonly Smell[]): BadSmell[] {
  return smells.filter((smell): smell is BadSmell => badSmells.some((bad) => bad === smell));
}

/** How grave a bad note is: what may cost the batch is urgent. Our own grading. */
export function gravityOf(what: NotedFacts): Severity {
  switch (what.kind) {
    case 'smell':
      return what.smells.some((smell) => smell === 'rotten' || smell === 'ammonia') ? 'urgent' : 'warning';
    case 'growth':
      return isThroughout(what) ? 'urgent' : 'warning';
    default:
      return 'warning';
  }
}

export function isThroughout({ place, amount }: Extract<NotedFacts, { kind: 'growth' }>): boolean {
  return place === 'all-through' || amount === 'many';
}

/** What hand or scales say of the water; null where they say nothing of it. */
function dampness(what: NotedFacts, limits: StageLimits): 'dry' | 'right' | 'wet' | null {
  if (what.kind === 'squeeze') {
    return what.feel === 'crumbles' ? 'dry' : what.feel === 'pours' ? 'wet' : 'right';
  }
  if (what.kind !== 'sample' || what.dryG === undefined) return null;
  const frac = sampleMoistureFrac(what.wetG, what.dryG);
  if (frac < limits.moistureMinFrac - sampleMarginFrac) return 'dry';
  return frac > limits.moistureMaxFrac + sampleMarginFrac ? 'wet' : 'right';
}

function signBy(found: Judged | 'dry' | 'right' | 'wet' | null, bad: 'bad' | 'dry' | 'wet'): NoteSign {
  if (found === null || found === 'doubtful') return null;
  return found === bad ? 'bad' : 'good';
}
