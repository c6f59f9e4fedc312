// Made from ../../en/lineage.json by `npm run messages`; change that instead.
import type { Amount, NoParams, Part } from '../../param-types.ts';

export interface LineageParams {
  'lineage.batch-name': { readonly laidDay: string; readonly pileName: string; readonly stage: 'bran' | 'other' | 'soil' };
  'lineage.batch': { readonly ending: 'abandoned' | 'continued' | 'finished' | 'merged' | 'other' | 'split' | 'used'; readonly laidDayMs: number; readonly pileName: string; readonly stage: 'bran' | 'other' | 'soil' };
  'lineage.use': { readonly isWeighed: boolean; readonly target: 'bed' | 'compost' | 'given' | 'other' | 'potting' | 'store'; readonly usedDayMs: number; readonly usedKg: Amount };
  'lineage.starter': { readonly collectedDayMs: number; readonly isDayKnown: boolean; readonly isPlaceKnown: boolean; readonly placeName: string };
  'lineage.material': { readonly isNumbered: boolean; readonly isSupplierKnown: boolean; readonly materialPart: Part; readonly numberName: string; readonly organic: 'certified' | 'conversion' | 'not' | 'other'; readonly supplierName: string };
  'lineage.water': NoParams;
  'lineage.sugar': NoParams;
  'lineage.remark.more-out-than-in': { readonly isLaid: boolean; readonly outKg: Amount; readonly thereKg: Amount };
}
