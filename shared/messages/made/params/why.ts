// Made from ../../en/why.json by `npm run messages`; change that instead.
import type { Amount, Difference, NoParams, Temperature } from '../../param-types.ts';

export interface WhyParams {
  'why.self-heating': { readonly step1C: Temperature; readonly step2C: Temperature; readonly step3C: Temperature; readonly step4C: Temperature; readonly step5C: Temperature };
  'why.overheating': { readonly actC: Temperature; readonly atOnceC: Temperature; readonly clearC: Temperature; readonly countsC: Temperature; readonly errorK: Difference; readonly lossC: Temperature };
  'why.overheating-soon': { readonly actC: Temperature; readonly believedK: Difference };
  'why.heat-doubted.by-pace': { readonly actC: Temperature; readonly eachHourK: Difference };
  'why.heat-damage': { readonly lossC: Temperature; readonly lossH: number; readonly mouldsFromC: Temperature; readonly mouldsToC: Temperature; readonly sameAsC: Temperature };
  'why.probe-none': NoParams;
  'why.probe-silent.new': { readonly allowedMs: number };
  'why.probe-silent': { readonly allowedMs: number; readonly everyMs: number };
  'why.probe-stuck': { readonly stuckMs: number };
  'why.probe-stuck.coarse': NoParams;
  'why.probe-out': { readonly warmK: Difference };
  'why.drying': { readonly belowPct: number; readonly dryAirH: number; readonly needsFrac: number };
  'why.stalling': { readonly actH: number; readonly slowPct: number; readonly stallH: number; readonly standingPct: number; readonly warmStallH: number };
  'why.probes-swapped': { readonly swappedH: number; readonly warmerK: Difference };
  'why.chilled': { readonly chilledC: Temperature; readonly chilledH: number };
  'why.waterlogged': { readonly chokedFrac: number; readonly moistureMaxFrac: number };
  'why.uneven': { readonly apartK: Difference; readonly tallestCm: Amount; readonly unevenH: number };
  'why.hand-dry': { readonly sampleFrac: number };
  'why.hand-wet': { readonly sampleFrac: number };
  'why.bad-smell': NoParams;
  'why.wrong-growth': NoParams;
  'why.rhythm.drying': { readonly everyMs: number };
  'why.rhythm.overheating': { readonly everyMs: number; readonly limitC: Temperature };
  'why.rhythm.stalling': { readonly afterMs: number; readonly everyMs: number };
}
