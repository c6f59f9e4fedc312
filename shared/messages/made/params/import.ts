// Made from ../../en/import.json by `npm run messages`; change that instead.
import type { NoParams, Part, Temperature } from '../../param-types.ts';

export interface ImportParams {
  'import.no-heading': NoParams;
  'import.too-many-columns': { readonly columnsCount: number; readonly mostCount: number };
  'import.too-many-rows': { readonly mostCount: number };
  'import.no-table': { readonly reasonText: string };
  'import.too-slow': NoParams;
  'import.not-previewed': NoParams;
  'import.no-time-column': NoParams;
  'import.no-value-column': NoParams;
  'import.no-quantity-column': NoParams;
  'import.no-kind-column': NoParams;
  'import.which-site': NoParams;
  'import.which-probe': NoParams;
  'import.which-pile': NoParams;
  'import.long-cell': { readonly foundCount: number; readonly mostCount: number };
  'import.long-number': { readonly foundCount: number; readonly mostCount: number };
  'import.long-time': { readonly foundCount: number; readonly mostCount: number };
  'import.no-number': { readonly cellText: string };
  'import.no-time': NoParams;
  'import.odd-time': { readonly cellText: string };
  'import.day-or-month': { readonly cellText: string };
  'import.no-such-day': { readonly cellText: string };
  'import.skipped-hour': { readonly cellText: string; readonly zoneName: string };
  'import.no-site': { readonly idText: string };
  'import.no-pile': { readonly idText: string };
  'import.no-value': NoParams;
  'import.no-probe': NoParams;
  'import.power-on': { readonly powerOnC: Temperature };
  'import.by-hand': NoParams;
  'import.none-of': { readonly cellText: string; readonly choicesText: string };
  'import.temperature-range': { readonly cellText: string; readonly leastC: Temperature; readonly mostC: Temperature };
  'import.struck-out': NoParams;
  'import.neither': { readonly cellText: string };
  'import.column.ignored': NoParams;
  'import.column.value': { readonly probeName: string; readonly quantityPart: Part; readonly unitText: string };
  'import.column.value-of-row': { readonly quantityPart: Part; readonly unitText: string };
  'import.column.field': { readonly field: 'by' | 'clock' | 'date' | 'id' | 'kind' | 'note' | 'other' | 'photos' | 'pile' | 'probe' | 'quantity' | 'site' | 'time' | 'unit' | 'value' | 'withdrawn'; readonly fieldName: string };
  'import.few-readings': { readonly leastCount: number };
  'import.days-in-future': NoParams;
  'import.many-days': { readonly mostCount: number };
  'import.same-time': NoParams;
  'import.no-temperature': NoParams;
}
