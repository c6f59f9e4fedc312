// Made from ../../en/page-chart.json by `npm run messages`; change that instead.
import type { NoParams, Temperature } from '../../param-types.ts';

export interface PageChartParams {
  'page-chart.nothing': NoParams;
  'page-chart.heat': NoParams;
  'page-chart.heat.says': { readonly aheadText: string; readonly hasAhead: boolean; readonly linesText: string; readonly unitText: string };
  'page-chart.over-time': { readonly linesText: string; readonly titleText: string };
  'page-chart.line': { readonly highestText: string; readonly isByHand: boolean; readonly lastText: string; readonly lowestText: string; readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top'; readonly timeText: string };
  'page-chart.next-sentence': { readonly beforeText: string; readonly nextText: string };
  'page-chart.act': { readonly actC: Temperature };
  'page-chart.by-hand': NoParams;
  'page-chart.expected': { readonly originText: string };
  'page-chart.ahead': NoParams;
  'page-chart.fan': { readonly firstC: Temperature; readonly firstHighText: string; readonly firstHours: number; readonly firstLowText: string; readonly laterText: string };
  'page-chart.fan.later': { readonly beforeText: string; readonly highText: string; readonly laterC: Temperature; readonly laterHours: number; readonly lowText: string };
  'page-chart.readout': NoParams;
  'page-chart.readout.none': NoParams;
  'page-chart.readout.value': { readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top'; readonly valueText: string };
  'page-chart.readout.expected': { readonly highC: Temperature; readonly lowText: string };
  'page-chart.readout.ahead': { readonly highC: Temperature; readonly lowText: string; readonly middleC: Temperature };
  'page-chart.table': NoParams;
  'page-chart.table.says': { readonly minutesCount: number };
  'page-chart.table.time': NoParams;
  'page-chart.table.column': { readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top'; readonly quantityText: string };
  'page-chart.table.expected': { readonly unitText: string };
  'page-chart.table.cell': { readonly highText: string; readonly lowText: string; readonly meanText: string };
  'page-chart.table.range': { readonly highText: string; readonly lowText: string };
  'page-chart.ahead-table': NoParams;
  'page-chart.ahead-table.says': NoParams;
  'page-chart.ahead-table.likely': { readonly unitText: string };
  'page-chart.ahead-table.between': { readonly unitText: string };
}
