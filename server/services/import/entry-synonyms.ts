/** Words that growers write in a notebook for what has a name of its own here. */
import type { EntryKind } from '../../../shared/entry.ts';
import type { Position } from '../../../shared/names.ts';

/** By kind; in small letters. */
const kindWords: Partial<Record<EntryKind, readonly string[]>> = {
  turned: ['turn', 'turning', 'turned over', 'mixed', 'aerated'],
  watered: ['water', 'watering', 'wetted', 'irrigated', 'sprinkled'],
  spread: ['spread out', 'spreading', 'thinned', 'flattened'],
  heaped: ['heap', 'heaped up', 'heaping', 'piled up'],
  covered: ['cover', 'covering', 'covered up'],
  uncovered: ['uncover', 'uncovering', 'cover off'],
  moved: ['move', 'moving', 'shifted'],
  rained: ['rain', 'rainfall', 'precipitation'],
  squeeze: ['squeezed', 'squeeze test', 'handful'],
  smell: ['smelt', 'smelled', 'odour', 'odor', 'nose'],
  growth: ['mould', 'mold', 'mycelium', 'fungus'],
  pests: ['pest', 'insects', 'flies', 'mites', 'rodents'],
  sample: ['weighed', 'moisture sample'],
  measured: [
    'measure',
    'measuring',
    'measurement',
    'temperature',
    'temperatures',
    'temp',
    'temp.',
    'thermometer',
    'reading',
  ],
  photo: ['picture', 'photograph'],
  note: ['remark', 'comment', 'observation'],
};

const positionWords: Readonly<Record<Position, readonly string[]>> = {
  core: ['middle', 'centre', 'center', 'heart', 'inside'],
  top: ['surface', 'upper'],
  base: ['bottom', 'lower', 'ground'],
  edge: ['side', 'rim', 'margin'],
  air: ['ambient', 'outside', 'outdoors', 'shade'],
};

function byWord<Name extends string>(words: Partial<Record<Name, readonly string[]>>): ReadonlyMap<string, Name> {
  const found = new Map<string, Name>();
  for (const [name, others] of Object.entries(words) as [Name, readonly string[]][]) {
    for (const word of [name, ...others]) found.set(word, name);
  }
  return found;
}

const kinds = byWord<EntryKind>({ readiness: [], ...kindWords });
const places = byWord<Position>(positionWords);

/** undefined for a word that names none. */
export const kindOf = (word: string): EntryKind | undefined => kinds.get(word.trim().toLowerCase());

export const positionOf = (word: string): Position | undefined => places.get(word.trim().toLowerCase());
