/** What can go wrong with a probe, on demand. */
import { z } from 'zod';

const window = {
  /** Hours since the pile was laid [h]; left out: from the start, or for good. */
  fromH: z.number().min(0).default(0),
  toH: z.number().min(0).optional(),
};

export const faultSchema = z.discriminatedUnion('kind', [
  /** Readings that never arrive, as a share of all, and how many in a row on the mean where they go together. */
  z.object({
    kind: z.literal('dropped'),
    share: z.number().min(0).max(1).default(0.1),
    inARow: z.number().min(1).max(1000).optional(),
    ...window,
  }),
  /** Readings that arrive twice. */
  z.object({ kind: z.literal('duplicated'), share: z.number().min(0).max(1).default(0.1), ...window }),
  /** No connection: readings are kept, and all arrive when the window ends. */
  z.object({ kind: z.literal('late'), ...window }),
  /** The same value again and again. */
  z.object({ kind: z.literal('stuck'), ...window }),
  /** The temperature walks away. */
  z.object({ kind: z.literal('drifting'), perDayK: z.number().default(2), ...window }),
  /** 85.0 °C of a chip read too early, as a share of readings. */
  z.object({ kind: z.literal('power-on'), share: z.number().min(0).max(1).default(0.05), ...window }),
  /** The sensing end is gone, the sender goes on. */
  z.object({ kind: z.literal('unplugged'), ...window }),
  /** Lies in the air beside the pile. */
  z.object({ kind: z.literal('pulled-out'), ...window }),
  /** Voltage falls for a day, then nothing more is heard until the window ends. */
  z.object({ kind: z.literal('flat-battery'), ...window }),
  /** Stamps its readings with a time that is off [s]; positive is ahead. */
  z.object({ kind: z.literal('wrong-clock'), byS: z.number().default(3600), ...window }),
]);
export type Fault = z.infer<typeof faultSchema>;
export type FaultKind = Fault['kind'];

/** The fault of that kind at work at `afterH` since the pile was laid, if any. */
export function faultAt<K extends FaultKind>(
  faults: readonly Fault[],
  kind: K,
  afterH: number,
): Extract<Fault, { kind: K }> | undefined {
  return faults.find(
    (fault): fault is Extract<Fault, { kind: K }> =>
      fault.kind === kind && afterH >= fault.fromH && afterH < (fault.toH ?? Number.POSITIVE_INFINITY),
  );
}

/** How likely the next reading is lost, after one that was or was not; one by one that is the same [-]. */
export function lossChance({ share, inARow }: Extract<Fault, { kind: 'dropped' }>, wasLost: boolean): number {
  if (inARow === undefined || share === 1) return share;
  return wasLost ? 1 - 1 / inARow : share / (1 - share) / inARow;
}
