/** What each entry is called, and what may be chosen in one. */

import type {
  amountsSeen,
  EntryKind,
  growthColours,
  growthPlaces,
  judgements,
  smells,
} from '../../../../shared/entry.ts';
import type { Position } from '../../../../shared/names.ts';

export const entryNames: Record<EntryKind, string> = {
  measured: 'Measured',
  turned: 'Turned',
  watered: 'Watered',
  spread: 'Spread thinner',
  heaped: 'Heaped up',
  covered: 'Covered',
  uncovered: 'Uncovered',
  moved: 'Moved',
  rained: 'Rain',
  squeeze: 'Squeeze test',
  smell: 'Smell',
  growth: 'Growth',
  pests: 'Pests',
  sample: 'Weighed sample',
  photo: 'Photo',
  note: 'Note',
  readiness: 'Ready or not',
  verdict: 'Verdict',
};

/** As they stand under the thumb: what is done most comes first. A verdict is asked where a batch ends. */
export const entryGroups: readonly (readonly [title: string, kinds: readonly EntryKind[]])[] = [
  ['With a thermometer', ['measured']],
  ['Done', ['turned', 'watered', 'spread', 'heaped', 'covered', 'uncovered', 'moved', 'rained']],
  ['Felt, smelt, seen', ['squeeze', 'smell', 'growth', 'pests', 'readiness']],
  ['Kept', ['photo', 'note', 'sample']],
];

export const smellNames: Record<(typeof smells)[number], string> = {
  sweet: 'sweet',
  fermented: 'fermented',
  earthy: 'earthy',
  mushroom: 'mushroom',
  faint: 'faint',
  sour: 'sour',
  ammonia: 'ammonia',
  rotten: 'rotten',
  musty: 'musty',
};
export const colourNames: Record<(typeof growthColours)[number], string> = {
  white: 'white',
  green: 'green',
  black: 'black',
  other: 'another colour',
};
export const placeNames: Record<(typeof growthPlaces)[number], string> = {
  skin: 'on the skin',
  edge: 'at the edge',
  core: 'in the core',
  base: 'at the base',
  'all-through': 'all through',
};
export const amountNames: Record<(typeof amountsSeen)[number], string> = { few: 'a few', some: 'some', many: 'many' };
export const judgementNames: Record<(typeof judgements)[number], string> = {
  good: 'good',
  doubtful: 'doubtful',
  bad: 'bad',
};

/** Where a thermometer was held. */
export const measuredPlaceNames: Record<Position, string> = {
  core: 'core',
  top: 'top',
  base: 'base',
  edge: 'edge',
  air: 'air beside it',
};
