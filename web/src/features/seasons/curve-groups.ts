/** Batches with something in common, so that their curves have one colour, and the middle of each group. */
import { quantileOfSorted } from '../../../../core/expect/quantile.ts';
import { type AlignBy, zeroHour } from '../../../../core/seasons/align.ts';
import { groupsOf } from '../../../../core/seasons/groups.ts';
import type { AgedCurve, ComparedBatch } from '../../../../shared/contracts/seasons.ts';
import { message, type Say } from '../../../../shared/messages/message.ts';
import { curveStyles } from './curve-style.ts';
import { groupsBy } from './named-groups.ts';

/** What distinguishes a batch from others, the most telling first. */
export const colourFacts = [
  'verdict',
  'material',
  'starter',
  'cover',
  'site',
  'year',
  'season',
  'ending',
  'stage',
] as const;
export type ColourFact = (typeof colourFacts)[number];

export interface CurveGroup {
  readonly id: string;
  readonly name: string;
  /** Of batches. */
  readonly ids: readonly string[];
}

/** @returns The largest first, as many as there are styles; batches of which it is not known are in none. */
export function curveGroups(batches: readonly ComparedBatch[], fact: ColourFact, say: Say): readonly CurveGroup[] {
  const groups = fact === 'ending' ? groupsOf(batches, endingOf(say)) : groupsBy(batches, fact, say);
  return groups
    .slice(0, curveStyles.length)
    .map(({ id, name, batches: of }) => ({ id, name, ids: of.map((batch) => batch.id) }));
}

const endingOf =
  (say: Say) =>
  ({ ending }: ComparedBatch) =>
    ending === null ? [] : [{ id: ending, name: say(message('season.ending', { ending })) }];

/** A group of one is a curve, not a group. */
const fewestOfGroup = 2;

/** @returns The first fact that parts the batches into groups that can be compared; undefined where none does. */
export function tellingFact(batches: readonly ComparedBatch[]): ColourFact | undefined {
  return colourFacts.find((fact) => {
    const groups = curveGroups(batches, fact, () => '').filter(({ ids }) => ids.length >= fewestOfGroup);
    return groups.length >= 2;
  });
}

const ascending = (one: number, other: number) => one - other;

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
      return values.length * 2 < placed.length ? null : quantileOfSorted(values.sort(ascending), 0.5);
    });
  return { id, warmingAfterH: by === 'warming' ? zero : null, coreC: courseOf('coreC'), airC: courseOf('airC') };
}
