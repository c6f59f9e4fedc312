/** Batches with something in common, so that their curves have one colour, and the middle of each group. */
import { type AlignBy, zeroHour } from '../../../../core/seasons/align.ts';
import { coverNames } from '../../../../shared/contracts/domain/batch.ts';
import { endingNames } from '../../../../shared/contracts/lineage.ts';
import type { AgedCurve, ComparedBatch } from '../../../../shared/contracts/seasons.ts';
import { materialNames } from '../../../../shared/profiles/material-names.ts';
import { stageNames } from '../../ui/format/words.ts';
import { curveStyles } from './curve-style.ts';

/** What a batch is told from others by, the most telling first. */
export const colourFacts = ['material', 'starter', 'cover', 'site', 'year', 'season', 'ending', 'stage'] as const;
export type ColourFact = (typeof colourFacts)[number];

export interface CurveGroup {
  readonly id: string;
  readonly name: string;
  /** Of batches. */
  readonly ids: readonly string[];
}

type Value = { readonly id: string; readonly name: string } | null;

const factOf: Record<ColourFact, (batch: ComparedBatch) => Value> = {
  material: ({ material }) => material && { id: material, name: materialNames[material] },
  starter: ({ starters }) => starters[0] ?? null,
  cover: ({ cover }) => cover && { id: cover, name: coverNames[cover] },
  site: ({ site, siteName }) => ({ id: site, name: siteName }),
  year: ({ year }) => ({ id: String(year), name: String(year) }),
  season: ({ season }) => season,
  ending: ({ ending }) => ending && { id: ending, name: endingNames[ending] },
  stage: ({ stage }) => ({ id: stage, name: stageNames[stage] }),
};

/** @returns The largest first, as many as there are styles; batches of which it is not known are in none. */
export function curveGroups(batches: readonly ComparedBatch[], fact: ColourFact): readonly CurveGroup[] {
  const groups = new Map<string, { id: string; name: string; ids: string[] }>();
  for (const batch of batches) {
    const value = factOf[fact](batch);
    if (value === null) continue;
    const group = groups.get(value.id) ?? { ...value, ids: [] };
    group.ids.push(batch.id);
    groups.set(value.id, group);
  }
  return [...groups.values()]
    .sort((one, other) => other.ids.length - one.ids.length || one.name.localeCompare(other.name))
    .slice(0, curveStyles.length);
}

/** A group of one is a curve, not a group. */
const fewestOfGroup = 2;

/** @returns The first fact that parts the batches into groups that can be compared; undefined where none does. */
export function tellingFact(batches: readonly ComparedBatch[]): ColourFact | undefined {
  return colourFacts.find((fact) => {
    const groups = curveGroups(batches, fact).filter(({ ids }) => ids.length >= fewestOfGroup);
    return groups.length >= 2;
  });
}

/**
 * The median of curves at each hour from their common zero.
 *
 * @returns Null at hours where fewer than half of them have a value: the few that go on for long are not the middle of all. Undefined
 * where no curve has a zero to stand by.
 */
export function middleCurve(id: string, curves: readonly AgedCurve[], by: AlignBy): AgedCurve | undefined {
  const placed = curves.flatMap((curve) => {
    const zero = zeroHour(curve, by);
    return zero === null ? [] : [{ curve, zero }];
  });
  if (placed.length === 0) return undefined;
  const zero = Math.max(...placed.map((one) => one.zero));
  const length = Math.max(...placed.map((one) => one.curve.coreC.length - one.zero)) + zero;
  const courseOf = (which: 'coreC' | 'airC') =>
    Array.from({ length }, (_, i) => {
      const values = placed.flatMap((one) => one.curve[which][i - zero + one.zero] ?? []);
      return values.length * 2 < placed.length ? null : median(values);
    });
  return { id, warmingAfterH: by === 'warming' ? zero : null, coreC: courseOf('coreC'), airC: courseOf('airC') };
}

function median(values: readonly number[]): number | null {
  const inOrder = [...values].sort((a, b) => a - b);
  const [low, high] = [inOrder[(inOrder.length - 1) >> 1], inOrder[inOrder.length >> 1]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}
