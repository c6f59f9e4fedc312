// Made from ../../en/phase.json by `npm run messages`; change that instead.
import type { Difference, NoParams, Part, Temperature } from '../../param-types.ts';

export interface PhaseParams {
  'phase.counts-as': { readonly phase: 'active' | 'cooling' | 'other' | 'resting' | 'settled' | 'warming'; readonly reasonPart: Part };
  'phase.reason.just-laid': NoParams;
  'phase.reason.heat-began': NoParams;
  'phase.reason.heat-faded': NoParams;
  'phase.reason.reached-working-heat': NoParams;
  'phase.reason.fell-from-its-peak': NoParams;
  'phase.reason.reheated': NoParams;
  'phase.reason.back-near-air': { readonly nearK: Difference };
  'phase.lost-culture-signs': NoParams;
  'phase.past-heat.unjudged': { readonly lossC: Temperature; readonly lossH: number; readonly peakC: Temperature; readonly position: 'base' | 'core' | 'edge' | 'other' | 'top' };
  'phase.past-heat.judged': { readonly lossC: Temperature; readonly lossH: number; readonly peakC: Temperature; readonly position: 'base' | 'core' | 'edge' | 'other' | 'top' };
  'phase.past-heat.brief': { readonly lossC: Temperature; readonly lossH: number; readonly peakC: Temperature; readonly position: 'base' | 'core' | 'edge' | 'other' | 'top' };
  'phase.past-heat.hot': { readonly actC: Temperature; readonly actH: number; readonly peakC: Temperature; readonly position: 'base' | 'core' | 'edge' | 'other' | 'top' };
}
