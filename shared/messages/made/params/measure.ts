// Made from ../../en/measure.json by `npm run messages`; change that instead.
import type { NoParams, Part, Temperature } from '../../param-types.ts';

export interface MeasureParams {
  'measure.never-measured': NoParams;
  'measure.probe-lost': NoParams;
  'measure.due': { readonly dueAtMs: number };
  'measure.overdue': { readonly dueAtMs: number };
  'measure.quiet': { readonly duePart: Part };
  'measure.not-known-yet': { readonly duePart: Part };
  'measure.near-limit': { readonly actC: Temperature; readonly duePart: Part };
  'measure.climbing': { readonly actC: Temperature; readonly duePart: Part };
  'measure.over-limit': { readonly actC: Temperature; readonly duePart: Part };
}
