// Made from ../../en/season.json by `npm run messages`; change that instead.
import type { Amount, NoParams, Part, Temperature } from '../../param-types.ts';

export interface SeasonParams {
  'season.difference.not-known': { readonly groupName: string; readonly measureCapitalPart: Part };
  'season.difference.too-few': { readonly countsPart: Part; readonly measureCapitalPart: Part };
  'season.difference.same': { readonly countsPart: Part; readonly measureCapitalPart: Part };
  'season.difference.none-shows': { readonly countsPart: Part; readonly higherPart: Part; readonly lowerPart: Part; readonly measureCapitalPart: Part; readonly oneName: string };
  'season.difference.apart': { readonly countsPart: Part; readonly farPart: Part; readonly isHigher: boolean; readonly measureCapitalPart: Part; readonly nearPart: Part; readonly oneName: string; readonly otherName: string; readonly shiftPart: Part };
  'season.counts.each': { readonly oneCount: number };
  'season.counts.both': { readonly oneCount: number; readonly otherCount: number };
  'season.counts.few-each': { readonly oneCount: number };
  'season.counts.few-both': { readonly oneCount: number; readonly otherCount: number };
  'season.no-cause': NoParams;
  'season.chance': { readonly comparedCount: number; readonly expectedCount: number };
  'season.closest.none-ended': NoParams;
  'season.closest.too-young': NoParams;
  'season.closest.other-hours': NoParams;
  'season.closest.alike': NoParams;
  'season.measure.hoursTo40': { readonly limitC: Temperature };
  'season.measure.peakC': NoParams;
  'season.measure.peakAfterH': NoParams;
  'season.measure.comfortH': NoParams;
  'season.measure.above50H': { readonly limitC: Temperature };
  'season.measure.above60H': { readonly limitC: Temperature };
  'season.measure.activityH': NoParams;
  'season.measure.degreeH': NoParams;
  'season.measure.depthM': NoParams;
  'season.measure.moistureStartFrac': NoParams;
  'season.measure.moistureEndFrac': NoParams;
  'season.measure.waterL': NoParams;
  'season.measure.turns': NoParams;
  'season.measure.alarmH': NoParams;
  'season.measure.readyDays': NoParams;
  'season.measure.airMeanC': NoParams;
  'season.verdict': { readonly verdict: 'good' | 'lost' | 'other' | 'poor' | 'usable' };
  'season.stage': { readonly stage: 'bran' | 'other' | 'soil' };
  'season.ending': { readonly ending: 'abandoned' | 'continued' | 'finished' | 'merged' | 'other' | 'split' | 'used' };
  'season.laid': { readonly coverPart: Part; readonly depthCm: Amount; readonly isDepthKnown: boolean; readonly materialCapitalPart: Part };
  'season.laid.no-material': NoParams;
  'season.laid.no-cover': NoParams;
}
