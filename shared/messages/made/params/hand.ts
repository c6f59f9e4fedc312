// Made from ../../en/hand.json by `npm run messages`; change that instead.
import type { NoParams, Part } from '../../param-types.ts';

export interface HandParams {
  'hand.found.crumbled': { readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'hand.found.held': { readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'hand.found.dripped': { readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'hand.found.poured': { readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'hand.found.sample': { readonly moistureFrac: number };
  'hand.found.sample-not-dried': NoParams;
  'hand.found.smell': { readonly smellsList: readonly (Part | string)[] };
  'hand.found.growth': { readonly growthPart: Part };
  'hand.found.judged': { readonly look: 'bad' | 'doubtful' | 'good' | 'other'; readonly smell: 'bad' | 'doubtful' | 'good' | 'other' };
  'hand.smell.rotten': NoParams;
  'hand.smell.sour': NoParams;
  'hand.smell.ammonia': NoParams;
  'hand.smell.bad': NoParams;
  'hand.growth': { readonly amount: 'few' | 'many' | 'other' | 'some'; readonly colourCapitalPart: Part; readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'hand.colour.white': NoParams;
  'hand.colour.green': NoParams;
  'hand.colour.black': NoParams;
  'hand.colour.other': NoParams;
}
