/**
 * Which batch was best, and by what those judged like it differ from those judged lower. It never says why, and never takes a
 * batch that nobody judged for a good one.
 */
import type { ComparedBatch } from '../../shared/contracts/seasons.ts';
import { type Verdict, verdicts } from '../../shared/verdict.ts';
import { compareGroups, type MeasureApart } from './groups.ts';
import { byVerdict, type Judged, ranked } from './rank.ts';

export interface Best {
  /** Of the batches asked about; null while nobody has judged any. */
  readonly best: Judged | null;
  /** Judged like it, in their order. */
  readonly alike: readonly Judged[];
  readonly unjudged: readonly ComparedBatch[];
  /** Of all the batches beside which they are laid: those judged like the best one. */
  readonly like: readonly Judged[];
  /** Those judged lower, a verdict at a time: what was too hot and what was too cool cancel each other. */
  readonly lower: readonly Lower[];
}

export interface Lower {
  readonly verdict: Verdict;
  readonly batches: readonly Judged[];
  /** Of those judged like the best one less these; what lies apart first, in the order of the table. */
  readonly measures: readonly MeasureApart[];
}

/**
 * @param asked E.g. those of last year.
 * @param beside All of the same stage that can be compared, those asked about among them.
 */
export function bestOf(asked: readonly ComparedBatch[], beside: readonly ComparedBatch[]): Best {
  const [best = null, ...others] = ranked(asked);
  const unjudged = asked.filter(({ verdict }) => verdict === null);
  if (best === null) return { best, alike: [], unjudged, like: [], lower: [] };
  const { verdict } = best.verdict;
  const groups = byVerdict(beside);
  const like = groups.find((group) => group.verdict === verdict)?.batches ?? [];
  return {
    best,
    alike: others.filter((batch) => batch.verdict.verdict === verdict),
    unjudged,
    like,
    lower: groups
      .filter((group) => isLower(group.verdict, verdict))
      .map((group) => ({ ...group, measures: apartFirst(like, group.batches) })),
  };
}

const isLower = (one: Verdict, than: Verdict): boolean => verdicts.indexOf(one) > verdicts.indexOf(than);

function apartFirst(like: readonly Judged[], lower: readonly Judged[]): MeasureApart[] {
  const measures = compareGroups(
    { id: 'like', name: 'like', batches: like },
    { id: 'lower', name: 'lower', batches: lower },
  );
  return [...measures.filter(({ apart }) => apart), ...measures.filter(({ apart }) => !apart)];
}

/** The last year that is over and has batches, else the newest there is; undefined of none. */
export function lastYear(batches: readonly Pick<ComparedBatch, 'year'>[], thisYear: number): number | undefined {
  const years = batches.map(({ year }) => year).sort((one, other) => other - one);
  return years.find((year) => year < thisYear) ?? years[0];
}
