/** What went in and out of one batch, added up. */
import type { Flow } from './graph.ts';

export interface BatchAmounts {
  readonly laidKg: number | null;
  readonly inKg: number | null;
  readonly outKg: number | null;
  readonly restKg: number | null;
  readonly remark: string | null;
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
  const over = thereKg !== null && outKg !== null && outKg > thereKg * 1.001;
  return {
    laidKg,
    inKg: into.length === 0 ? null : totalKg(into),
    outKg,
    restKg,
    remark: over
      ? `${kg(outKg)} was written down as taken and ${kg(thereKg)} as ${laidKg === null ? 'put in' : 'laid'}: water added since may explain it, or a slip of the pen.`
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

function kg(massKg: number): string {
  return `${Math.round(massKg * 100) / 100} kg`;
}
