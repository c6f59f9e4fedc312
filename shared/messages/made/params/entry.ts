// Made from ../../en/entry.json by `npm run messages`; change that instead.
import type { Amount, NoParams, Part, Temperature } from '../../param-types.ts';

export interface EntryParams {
  'entry.turned': NoParams;
  'entry.watered': NoParams;
  'entry.watered-by': { readonly amountL: Amount };
  'entry.spread': NoParams;
  'entry.spread-to': { readonly bedCm: Amount };
  'entry.heaped': NoParams;
  'entry.heaped-to': { readonly bedCm: Amount };
  'entry.covered': { readonly cover: 'breathable' | 'closed' | 'other' };
  'entry.uncovered': NoParams;
  'entry.moved': NoParams;
  'entry.moved-to': { readonly placeName: string };
  'entry.rained': NoParams;
  'entry.rained-by': { readonly rainMm: Amount };
  'entry.squeeze': { readonly feelPart: Part; readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'entry.squeeze-judged': { readonly feelPart: Part; readonly meaningPart: Part; readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'entry.smell': { readonly smellsList: readonly (Part | string)[] };
  'entry.growth': { readonly amount: 'few' | 'many' | 'other' | 'some'; readonly colourPart: Part; readonly place: 'base' | 'core' | 'edge' | 'other' | 'skin' | 'through' };
  'entry.pests': { readonly amount: 'few' | 'many' | 'other' | 'some'; readonly pestsName: string };
  'entry.sample': { readonly wetG: number };
  'entry.sample-dried': { readonly dryG: number; readonly moisturePct: number; readonly wetG: number };
  'entry.measured': { readonly measuredC: Temperature; readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top' };
  'entry.measured-meter': { readonly measuredC: Temperature; readonly meterPct: number; readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top' };
  'entry.photo': NoParams;
  'entry.note': NoParams;
  'entry.readiness': { readonly isReady: boolean; readonly look: 'bad' | 'doubtful' | 'good' | 'other'; readonly smell: 'bad' | 'doubtful' | 'good' | 'other' };
  'entry.verdict': { readonly verdict: 'good' | 'lost' | 'other' | 'poor' | 'usable' };
  'entry.verdict-why': { readonly verdict: 'good' | 'lost' | 'other' | 'poor' | 'usable'; readonly whyPart: Part };
  'entry.smell.sweet': NoParams;
  'entry.smell.fermented': NoParams;
  'entry.smell.earthy': NoParams;
  'entry.smell.mushroom': NoParams;
  'entry.smell.faint': NoParams;
  'entry.smell.sour': NoParams;
  'entry.smell.ammonia': NoParams;
  'entry.smell.rotten': NoParams;
  'entry.smell.musty': NoParams;
  'entry.colour.white': NoParams;
  'entry.colour.green': NoParams;
  'entry.colour.black': NoParams;
  'entry.colour.other': NoParams;
}
