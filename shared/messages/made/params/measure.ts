// Made from ../../en/measure.json by `npm run messages`; change that instead.
import type { NoParams, Temperature } from '../../param-types.ts';

export interface MeasureParams {
  'measure.never-measured': NoParams;
  'measure.probe-lost': NoParams;
  'measure.quiet': { readonly dueAtMs: number; readonly isOverdue: boolean };
  'measure.not-known-yet': { readonly dueAtMs: number; readonly isOverdue: boolean };
  'measure.near-limit': { readonly actC: Temperature; readonly dueAtMs: number; readonly isOverdue: boolean };
  'measure.climbing': { readonly actC: Temperature; readonly dueAtMs: number; readonly isOverdue: boolean };
  'measure.over-limit': { readonly actC: Temperature; readonly dueAtMs: number; readonly isOverdue: boolean };
}
