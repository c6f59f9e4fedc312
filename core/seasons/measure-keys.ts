/** The measures that are one number each; what they mean stands in shared/contracts/seasons.ts. */

/** Every measure that is one number; the order is that of the table. */
export const measureKeys = [
  'hoursTo40',
  'peakC',
  'peakAfterH',
  'comfortH',
  'above50H',
  'above60H',
  'activityH',
  'degreeH',
  'depthM',
  'moistureStartFrac',
  'moistureEndFrac',
  'waterL',
  'turns',
  'alarmH',
  'readyDays',
  'airMeanC',
] as const;
export type MeasureKey = (typeof measureKeys)[number];
