/** What went in and out of one batch, added up. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Flow } from './graph.ts';

/** Out may be so much more than in by rounding alone [-]; our own choice, no source. */
const roundedOff = 1.001;

export interface BatchAmounts {
  readonly laidKg: number | null;
  readonly inKg: number | null;
  readonly outKg: number | null;
  readonly restKg: number | null;
  /** What was there less what was weighed on its way out; null where the rest is known, and where what was there is not. */
  readonly restAtMostKg: number | null;
  /** Set when more was written down as taken than as laid. */
  readonly remark: Message | null;
}

export function batchAmounts(
  laidKg: number | null,
  into: readonly Flow[],
  outOf: readonly Flow[],
  emptied: boolean,
): BatchAmounts {
  const outKg = outOf.length === 0 ? 0 : totalKg(outOf);
  const thereKg = wholeKg(laidKg, into);
  const restKg = emptied ? 0 : thereKg === null || outKg === null ? null : Math.max(0, thereKg - outKg);
  const weighedKg = outOf.reduce((sum, { massKg }) => sum + (massKg ?? 0), 0);
  const over = thereKg !== null && outKg !== null && outKg > thereKg * roundedOff;
  return {
    laidKg,
    inKg: into.length === 0 ? null : totalKg(into),
    outKg,
    restKg,
    restAtMostKg: restKg === null && thereKg !== null ? Math.max(0, thereKg - weighedKg) : null,
    remark: over
      ? message('lineage.remark.more-out-than-in', {
          outKg: asWritten(outKg),
          thereKg: asWritten(thereKg),
          isLaid: laidKg !== null,
        })
      : null,
  };
}

/**
 * What there was of a batch: as weighed when laid, else the sum of what went into one that was made of others. What went into one
 * laid by itself may lack its water.
 */
export function wholeKg(laidKg: number | null, into: readonly Flow[]): number | null {
  if (laidKg !== null) return laidKg;
  return into.some(({ from }) => from.kind === 'batch') ? totalKg(into) : null;
}

/** Null where any amount is missing. */
function totalKg(flows: readonly Pick<Flow, 'massKg'>[]): number | null {
  let sum = 0;
  for (const { massKg } of flows) {
    if (massKg === null) return null;
    sum += massKg;
  }
  return sum;
}

/** To a hundredth of a kilogram, as it was written down, not in three figures. */
const asWritten = (massKg: number) => ({ value: Math.round(massKg * 100) / 100, figures: 8 });
