/** How long top and base have been far apart. */
import { z } from 'zod';
import type { Positions } from './position.ts';

export const apartSchema = z.object({
  /** Hours in a row [h]. */
  forH: z.number(),
  /** What explains it: a probe that may be out of the pile. */
  by: z.literal('probe-out').nullable(),
});
type Apart = z.infer<typeof apartSchema>;

/** Difference of the eased means of top and base [K]; our own, no source. */
export const unevenK = 12;

export const startApart = (): Apart => ({ forH: 0, by: null });

export function followApart(apart: Apart, { top, base }: Readonly<Positions>): void {
  const topC = top?.hour.dayMeanC;
  const baseC = base?.hour.dayMeanC;
  const dayK = topC == null || baseC == null ? 0 : Math.abs(topC - baseC);
  // A turn evens a bed out at once; the day's means learn it late.
  const nowK = Math.abs((top?.hour.meanC ?? 0) - (base?.hour.meanC ?? 0));
  apart.forH = dayK > unevenK && nowK > unevenK / 2 ? apart.forH + 1 : 0;
  apart.by = top?.out.sinceMs != null || base?.out.sinceMs != null ? 'probe-out' : null;
}
