// Made from ../../en/rule.json by `npm run messages`; change that instead.
import type { NoParams, Temperature } from '../../param-types.ts';

export interface RuleParams {
  'rule.us-organic-vessel.name': NoParams;
  'rule.us-organic-vessel.source': NoParams;
  'rule.us-organic-vessel.asks': NoParams;
  'rule.us-organic-windrow.name': NoParams;
  'rule.us-organic-windrow.source': NoParams;
  'rule.us-organic-windrow.asks': NoParams;
  'rule.us-sludge-reduce.name': NoParams;
  'rule.us-sludge-reduce.source': NoParams;
  'rule.us-sludge-reduce.asks': { readonly highC: Temperature; readonly lowC: Temperature };
  'rule.us-sludge-windrow.name': NoParams;
  'rule.us-sludge-windrow.source': NoParams;
  'rule.us-sludge-windrow.asks': { readonly highC: Temperature };
  'rule.au-compost.name': NoParams;
  'rule.au-compost.source': NoParams;
  'rule.au-compost.asks': { readonly highC: Temperature };
  'rule.uk-compost.name': NoParams;
  'rule.uk-compost.source': NoParams;
  'rule.uk-compost.asks': { readonly highC: Temperature };
  'rule.eu-compost.name': NoParams;
  'rule.eu-compost.source': NoParams;
  'rule.eu-compost.asks': { readonly firstC: Temperature; readonly fourthC: Temperature; readonly secondC: Temperature; readonly thirdC: Temperature };
  'rule.measured.organic': { readonly longestHours: number };
  'rule.measured.organic-turned': { readonly longestHours: number; readonly turnCount: number };
  'rule.measured.at-and-above': { readonly aboveHours: number; readonly highC: Temperature; readonly longestHours: number; readonly lowC: Temperature };
  'rule.measured.at-turned': { readonly highC: Temperature; readonly longestHours: number; readonly turnCount: number };
  'rule.measured.at-turned-in-all': { readonly highC: Temperature; readonly longestHours: number; readonly turnCount: number };
  'rule.measured.in-all': { readonly highC: Temperature; readonly totalHours: number; readonly turnCount: number };
  'rule.measured.four': { readonly firstC: Temperature; readonly firstHours: number; readonly fourthC: Temperature; readonly fourthHours: number; readonly secondC: Temperature; readonly secondHours: number; readonly thirdC: Temperature; readonly thirdHours: number };
  'rule.not-sanitised': NoParams;
  'rule.not-certified': NoParams;
  'rule.downsampled': { readonly untilDateMs: number };
}
