/**
 * The grower's own finished batches, blended into the expected band. It never blends fewer than three: two batches are
 * no experience yet.
 */
import { message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import type { WorkedBand } from './band.ts';
import { quantileOfSorted } from './quantile.ts';

export interface FinishedBatch {
  /** Core temperature at each whole hour of the batch's age [°C]; null where it was not measured. */
  readonly coreByHourC: readonly (number | null)[];
}

/** Fewer own batches say nothing of how far they differ; our own choice, no source. */
export const fewestBatches = 3;

/** Weight of n own batches against the model: n / (n + 4), so three count 0.43 and twelve 0.75. Our own choice. */
export function ownWeight(batches: number): number {
  return batches < fewestBatches ? 0 : batches / (batches + 4);
}

/**
 * Every age is taken with an hour or two of leeway either side, for no two batches wake at the same hour: the quantiles of
 * three curves would otherwise be thinner than experience allows. [h]; our own choice, no source.
 */
const leewayH = 3;

export function blendFinished(band: WorkedBand, batches: readonly FinishedBatch[]): WorkedBand {
  const { p10C, p50C, p90C, origin, ...rest } = band;
  const own = ownLines(band, batches);
  if (own.ownBatches === 0) return band;
  const blended = { p10C: [...p10C], p50C: [...p50C], p90C: [...p90C] };
  for (const [step, weight] of own.weights.entries()) {
    if (weight === 0) continue;
    for (const line of ['p10C', 'p50C', 'p90C'] as const) {
      blended[line][step] = mix(band[line][step] ?? 0, own.lines[line][step] ?? 0, weight);
    }
  }
  const batchCount = own.ownBatches;
  return {
    ...rest,
    ...blended,
    origin: message('band.both', { modelPart: origin, batchCount }),
    sources: {
      model: { p10C, p50C, p90C, origin },
      own: { ...own.lines, origin: message('band.own', { batchCount }) },
      ownBatches: batchCount,
    },
  };
}

/** Their quantiles on the band's grid, NaN where fewer than three ran, with the weight of each age. */
function ownLines(band: WorkedBand, batches: readonly FinishedBatch[]) {
  const lines = { p10C: [] as number[], p50C: [] as number[], p90C: [] as number[] };
  const weights: number[] = [];
  let ownBatches = 0;
  for (let step = 0; step < band.p50C.length; step += 1) {
    const age = Math.round((step * band.stepMs) / msPerHour);
    const { values, count } = valuesAt(batches, age);
    const weight = ownWeight(count);
    const at = (share: number) => (weight === 0 ? Number.NaN : quantileOfSorted(values, share));
    weights.push(weight);
    if (weight > 0) ownBatches = Math.max(ownBatches, count);
    lines.p10C.push(at(0.1));
    lines.p50C.push(at(0.5));
    lines.p90C.push(at(0.9));
  }
  return { lines, weights, ownBatches };
}

/** Batches that still ran at this age, and their values around it, sorted. */
function valuesAt(batches: readonly FinishedBatch[], age: number): { values: number[]; count: number } {
  const values: number[] = [];
  let count = 0;
  for (const { coreByHourC } of batches) {
    const before = values.length;
    for (let hour = Math.max(0, age - leewayH); hour <= age + leewayH; hour += 1) {
      const value = coreByHourC[hour];
      if (value != null) values.push(value);
    }
    if (values.length > before) count += 1;
  }
  return { values: values.sort((one, other) => one - other), count };
}

function mix(model: number, own: number, weight: number): number {
  return model + weight * (own - model);
}
