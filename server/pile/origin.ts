/**
 * What a batch was split off from, so that it is judged on from where that was laid. It never goes round in a circle:
 * what came of what is checked when it is kept.
 */
import { wholeKg } from '../../core/lineage/amounts.ts';
import { carriedOn } from '../../core/profiles/carried-on.ts';
import type { PileSetup, Served } from '../../core/profiles/pile-setup.ts';
import { fillRecipe } from '../../core/session/fill-recipe.ts';
import { isHandProbe } from '../../shared/hand-series.ts';
import { stageLimits } from '../../shared/stage.ts';
import type {
  ActRecord,
  BatchRecord,
  ClaimRecord,
  FlowRecord,
  Journal,
  PileRecord,
} from '../../shared/store/journal.ts';
import { type HeardOfPeople, heardOfPeople } from './heard-by-judge.ts';
import { handSources, type PileSource, pileSources } from './pile-sources.ts';

export interface JudgedFrom {
  readonly setup: PileSetup;
  readonly sources: readonly PileSource[];
}

/** @param flows All that ever went from one batch into another. */
export async function judgedFrom(
  journal: Journal,
  flows: readonly FlowRecord[],
  batch: BatchRecord,
  acts: readonly ActRecord[],
  heard: HeardOfPeople,
  sources: readonly PileSource[],
): Promise<JudgedFrom> {
  const own = {
    setup: { ...setupOf(batch, acts, heard, inKgOf(flows, batch.id)), served: servedBy(sources, batch) },
    sources,
  };
  const split = flows.find(
    ({ to, way, withdrawnAtMs }) =>
      way === 'split' && to.kind === 'batch' && to.id === batch.id && withdrawnAtMs === null,
  );
  if (split === undefined) return own;
  const from = (await journal.batches.list()).find(({ id }) => id === split.from.id);
  const pile = from && (await journal.piles.get(from.pileId));
  if (!from || !pile || from.stage !== batch.stage) return own;
  const there = await judgedFrom(
    journal,
    flows,
    from,
    await journal.acts.list(pile.id),
    await heardOfPeople(journal, from),
    heardSources(await journal.claims.list(pile.siteId), pile),
  );
  const splitMs = batch.startedAtMs;
  return {
    setup: carriedOn(there.setup, own.setup),
    // Until the split the probes of the whole speak for the part, from there on its own.
    sources: [...within(there.sources, Number.NEGATIVE_INFINITY, splitMs), ...within(sources, splitMs, null)],
  };
}

/** What the judge hears: probes, and all that was measured by hand, which it weighs itself where both speak. */
export function heardSources(claims: readonly ClaimRecord[], { id, siteId }: PileRecord): PileSource[] {
  const probes = claims.filter(({ probe }) => !isHandProbe(probe));
  return [...pileSources(probes, id, siteId), ...handSources(claims, id)];
}

/** The sum of what went into a batch that was made of others [kg]; null where it is not known. */
export function inKgOf(flows: readonly FlowRecord[], batchId: string): number | null {
  const into = flows.filter(
    ({ to, withdrawnAtMs }) => to.kind === 'batch' && to.id === batchId && withdrawnAtMs === null,
  );
  return wholeKg(null, into);
}

/** A probe serves a batch from when it was given to the pile; what it said before the batch was laid was of another. */
function servedBy(sources: readonly PileSource[], { startedAtMs }: BatchRecord): Served {
  const now = sources.filter(({ claim }) => claim.toMs === null);
  return Object.fromEntries(now.map(({ claim, position }) => [position, Math.max(claim.fromMs, startedAtMs)]));
}

function within(sources: readonly PileSource[], fromMs: number, toMs: number | null): PileSource[] {
  return sources.flatMap(({ claim, position }) => {
    const cut = {
      ...claim,
      fromMs: Math.max(claim.fromMs, fromMs),
      toMs: toMs === null ? claim.toMs : Math.min(claim.toMs ?? toMs, toMs),
    };
    return cut.toMs !== null && cut.toMs <= cut.fromMs ? [] : [{ claim: cut, position }];
  });
}

/** @param inKg The sum of what it was made of; null where that is not known [kg]. */
export function setupOf(
  batch: BatchRecord,
  acts: readonly ActRecord[],
  heard: HeardOfPeople | undefined,
  inKg: number | null = null,
): PileSetup {
  const limits = { ...stageLimits[batch.stage], ...batch.limits };
  return {
    stage: batch.stage,
    startedAtMs: batch.startedAtMs,
    limits,
    ...fillRecipe(batch.stage, batch.recipe, limits, inKg),
    acts: acts.filter((act) => act.atMs >= batch.startedAtMs).sort((a, b) => a.atMs - b.atMs),
    ...heard,
  };
}
