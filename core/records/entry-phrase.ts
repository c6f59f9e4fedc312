/** One plain phrase for an entry, e.g. "Watered, 8 L". */
import { type EntryFacts, sampleMoistureFrac } from '../../shared/entry.ts';

const squeezed = {
  crumbles: 'it crumbles: too dry',
  holds: 'it holds, a drop or two: right',
  drips: 'it drips: a little wet',
  pours: 'water runs out: too wet',
} as const;

const places = {
  skin: 'on the skin',
  edge: 'at the edge',
  core: 'in the core',
  base: 'at the base',
  'all-through': 'all through',
} as const;

export function entryPhrase(what: EntryFacts): string {
  switch (what.kind) {
    case 'turned':
      return 'Turned';
    case 'watered':
      return withMore('Watered', what.amountL === undefined ? undefined : `${trim(what.amountL)} L`);
    case 'spread':
      return withMore('Spread', depth(what.depthM));
    case 'heaped':
      return withMore('Heaped', depth(what.depthM));
    case 'covered':
      return withMore('Covered', what.cover && `${what.cover} cover`);
    case 'uncovered':
      return 'Uncovered';
    case 'moved':
      return withMore('Moved', what.place);
    case 'rained':
      return withMore('Rain', what.rainMm === undefined ? undefined : `${trim(what.rainMm)} mm`);
    case 'squeeze':
      return `Squeezed${what.place ? ` ${places[what.place]}` : ''}: ${squeezed[what.feel]}`;
    case 'smell':
      return `Smells ${what.smells.join(', ')}`;
    case 'growth': {
      const colour = what.colour === 'other' ? (what.otherColour ?? 'another colour') : what.colour;
      const seen = withMore(`Growth, ${colour}`, what.amount);
      return what.place ? `${seen}, ${places[what.place]}` : seen;
    }
    case 'pests':
      return withMore(`Pests, ${what.what}`, what.amount);
    case 'sample': {
      const weighed = `Sample, ${trim(what.wetG)} g`;
      if (what.dryG === undefined) return weighed;
      const pct = Math.round(sampleMoistureFrac(what.wetG, what.dryG) * 1000) / 10;
      return `${weighed}, dry ${trim(what.dryG)} g: moisture ${pct} % (wet basis)`;
    }
    case 'photo':
      return 'Photo';
    case 'note':
      return 'Note';
    case 'readiness':
      return `Smell ${what.smell}, look ${what.look}: ${what.ready ? 'found ready' : 'not ready'}`;
  }
}

function withMore(said: string, more: string | undefined): string {
  return more === undefined ? said : `${said}, ${more}`;
}

function depth(depthM: number | undefined): string | undefined {
  return depthM === undefined ? undefined : `${trim(depthM * 100)} cm deep`;
}

function trim(value: number): string {
  return String(Math.round(value * 100) / 100);
}
