/** Why a core should be measured by hand when it should. */
export const measureReasons = [
  'never-measured',
  'quiet',
  'not-known-yet',
  'near-limit',
  'climbing',
  'over-limit',
  'probe-lost',
] as const;
export type MeasureReason = (typeof measureReasons)[number];
