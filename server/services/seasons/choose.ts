/** Which batches a query asks for. */
import { keyOf, type Lineage, lineageOf } from '../../../core/lineage/graph.ts';
import { walk } from '../../../core/lineage/walk.ts';
import { type Location, seasonOf } from '../../../core/seasons/season.ts';
import type { Choice } from '../../../shared/contracts/seasons.ts';
import type { Site } from '../../../shared/contracts/sites.ts';
import type { BatchRecord, FlowRecord, LotRecord } from '../../../shared/store/journal.ts';
import { monthOf } from '../../../shared/zoned-time.ts';
import type { Family } from '../lineage/family.ts';

export interface Known {
  readonly batch: BatchRecord;
  readonly site: Site;
  readonly season: { readonly id: string; readonly name: string };
  readonly year: number;
  readonly starters: readonly LotRecord[];
}

const nowhere: Omit<Site, 'id' | 'name'> = { timeZone: null, latitude: null, longitude: null };

export function knownBatches(family: Family, sites: readonly Site[]): Known[] {
  const lineage = lineageOf(family.flows);
  const byId = new Map(sites.map((site) => [site.id, site]));
  return [...family.batches.values()]
    .map((batch): Known => {
      const siteId = family.piles.get(batch.pileId)?.siteId ?? '';
      const site = byId.get(siteId) ?? { id: siteId, name: siteId, ...nowhere };
      const { id, name } = seasonOf(batch.startedAtMs, site);
      return {
        batch,
        site,
        season: { id, name },
        year: yearAt(batch.startedAtMs, site),
        starters: startersOf(family, lineage, batch.id),
      };
    })
    .sort((a, b) => b.batch.startedAtMs - a.batch.startedAtMs);
}

function yearAt(atMs: number, { timeZone }: Location): number {
  return monthOf(atMs, timeZone ?? 'UTC').year;
}

function startersOf(family: Family, lineage: Lineage<FlowRecord>, batchId: string): LotRecord[] {
  const found: LotRecord[] = [];
  for (const key of walk(lineage, keyOf({ kind: 'batch', id: batchId }), 'up').keys()) {
    const lot = key.startsWith('lot:') ? family.lots.get(key.slice(4)) : undefined;
    if (lot?.facts.kind === 'starter') found.push(lot);
  }
  return found;
}

export function chosen(known: readonly Known[], family: Family, choice: Choice): Known[] {
  const ids = choice.batches === undefined ? null : new Set(choice.batches.split(','));
  const kin = choice.lineage === undefined ? null : walk(lineageOf(family.flows), choice.lineage, 'both');
  const fits = <T>(wanted: T | undefined, has: T): boolean => wanted === undefined || wanted === has;
  return known.filter(
    ({ batch, site, season, year, starters }) =>
      (choice.state === 'all' || batch.endedAtMs !== null) &&
      fits(choice.stage, batch.stage) &&
      fits(choice.site, site.id) &&
      fits(choice.season, season.id) &&
      fits(choice.year, year) &&
      fits(choice.material, batch.recipe.material) &&
      (choice.starter === undefined || starters.some(({ id }) => id === choice.starter)) &&
      (ids === null || ids.has(batch.id)) &&
      (kin === null || kin.has(keyOf({ kind: 'batch', id: batch.id }))),
  );
}
