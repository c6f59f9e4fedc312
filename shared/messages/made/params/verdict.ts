// Made from ../../en/verdict.json by `npm run messages`; change that instead.
import type { NoParams, Part, Temperature } from '../../param-types.ts';

export interface VerdictParams {
  'verdict.why.smelt-good': NoParams;
  'verdict.why.grew-white': NoParams;
  'verdict.why.kept-warm': NoParams;
  'verdict.why.too-hot': NoParams;
  'verdict.why.too-cool': NoParams;
  'verdict.why.too-wet': NoParams;
  'verdict.why.too-dry': NoParams;
  'verdict.why.smelt-bad': NoParams;
  'verdict.why.other-growth': NoParams;
  'verdict.why.pests': NoParams;
  'verdict.why.uneven': NoParams;
  'verdict.seen.peak': { readonly peakC: Temperature };
  'verdict.seen.peak-low': { readonly comfortMinC: Temperature; readonly peakC: Temperature };
  'verdict.seen.comfort': { readonly comfortH: number; readonly comfortMaxC: Temperature; readonly comfortMinC: Temperature; readonly measuredH: number };
  'verdict.seen.warned': { readonly stoodH: number };
  'verdict.seen.noted': { readonly entryPart: Part };
}
