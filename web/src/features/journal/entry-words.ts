/** What each entry is called, and how one is said in the person's own units. */

import { coverNames } from '../../../../shared/contracts/domain/batch.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import {
  type amountsSeen,
  type EntryFacts,
  type EntryKind,
  type growthColours,
  type growthPlaces,
  type judgements,
  sampleMoistureFrac,
  type smells,
  type squeezeFeels,
} from '../../../../shared/entry.ts';
import { measureText } from '../../../../shared/measure.ts';
import { plainNumber } from '../../ui/format/temperature.ts';

export const entryNames: Record<EntryKind, string> = {
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
};

/** As they stand under the thumb: what is done most comes first. */
export const entryGroups: readonly (readonly [title: string, kinds: readonly EntryKind[]])[] = [
  ['Done', ['turned', 'watered', 'spread', 'heaped', 'covered', 'uncovered', 'moved', 'rained']],
  ['Felt, smelt, seen', ['squeeze', 'smell', 'growth', 'pests', 'readiness']],
  ['Kept', ['photo', 'note', 'sample']],
];

export const feelNames: Record<(typeof squeezeFeels)[number], string> = {
  crumbles: 'Crumbles: too dry',
  holds: 'Holds, hardly a drop: right',
  drips: 'Drips: a little wet',
  pours: 'Pours: too wet',
};
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

const feelShort: Record<(typeof squeezeFeels)[number], string> = {
  crumbles: 'crumbles',
  holds: 'holds',
  drips: 'drips',
  pours: 'pours',
};

/** One phrase for an entry. @example sayFacts({ kind: 'watered', amountL: 8 }, metric) // => "Watered, 8 L" */
export function sayFacts(facts: EntryFacts, units: PlanUnits): string {
  const text = (kind: Parameters<typeof measureText>[0], value: number) => measureText(kind, value, units, 3);
  const said = facts.kind === 'readiness' ? (facts.ready ? 'Found ready' : 'Not ready yet') : entryNames[facts.kind];
  const parts = [said, ...details(facts, text)];
  return parts.filter((part) => part !== undefined).join(', ');
}

function details(
  facts: EntryFacts,
  text: (kind: Parameters<typeof measureText>[0], value: number) => string,
): (string | undefined)[] {
  switch (facts.kind) {
    case 'watered':
      return [facts.amountL === undefined ? undefined : text('volumeL', facts.amountL)];
    case 'spread':
    case 'heaped':
      return [facts.depthM === undefined ? undefined : `to ${text('depthM', facts.depthM)}`];
    case 'covered':
      return [facts.cover && coverNames[facts.cover]];
    case 'moved':
      return [facts.place && `to ${facts.place}`];
    case 'rained':
      return [facts.rainMm === undefined ? undefined : text('rainMm', facts.rainMm)];
    case 'squeeze':
      return [feelShort[facts.feel], facts.place && placeNames[facts.place]];
    case 'smell':
      return [facts.smells.map((one) => smellNames[one]).join(' and ')];
    case 'growth':
      return [
        facts.colour === 'other' ? (facts.otherColour ?? colourNames.other) : colourNames[facts.colour],
        facts.place && placeNames[facts.place],
        facts.amount && amountNames[facts.amount],
      ];
    case 'pests':
      return [facts.what, facts.amount && amountNames[facts.amount]];
    case 'sample':
      return [
        `${plainNumber(facts.wetG, 0)} g wet`,
        facts.dryG === undefined ? undefined : `${plainNumber(facts.dryG, 0)} g dry`,
        facts.dryG === undefined
          ? undefined
          : `moisture ${plainNumber(sampleMoistureFrac(facts.wetG, facts.dryG) * 100, 0)} %, wet basis`,
      ];
    case 'readiness':
      return [`smell ${judgementNames[facts.smell]}`, `look ${judgementNames[facts.look]}`];
    default:
      return [];
  }
}
