/** One pile with its recipe, limits and their origins, acts, and all that was looked at. */
import type { z } from 'zod';
import type { AirAheadUsed } from '../../../core/expect/air-ahead.ts';
import { detailView } from '../../../core/session/assessment-view.ts';
import { limitsView } from '../../../core/session/limits-view.ts';
import type { actRecordSchema, PileDetail } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { worded } from '../../../shared/messages/in-words.ts';
import type { ActRecord } from '../../../shared/store/journal.ts';
import type { WatchedPile } from '../../pile/watched-pile.ts';
import { shownSource } from '../air-ahead/shown-source.ts';

export async function pileDetail(one: WatchedPile, acts: readonly ActRecord[]): Promise<PileDetail> {
  const { assessment, band } = await one.judged();
  return {
    ...one.summary(),
    recipe: one.batch?.recipe ?? null,
    limits: one.batch ? worded(limitsView(one.batch.stage, one.batch.limits)) : {},
    acts: acts.map(actView),
    ...worded(detailView(assessment)),
    ...(band?.airAhead && { airAhead: airAheadView(band.airAhead) }),
  };
}

function airAheadView({ source, issuedMs, untilMs }: AirAheadUsed): PileDetail['airAhead'] {
  return { ...shownSource(source), issuedAt: toInstant(issuedMs), until: toInstant(untilMs) };
}

export function actView(act: ActRecord): z.infer<typeof actRecordSchema> {
  return {
    id: act.id,
    kind: act.kind,
    at: toInstant(act.atMs),
    ...(act.amountL !== undefined && { amountL: act.amountL }),
    ...(act.depthM !== undefined && { depthM: act.depthM }),
    ...(act.rainMm !== undefined && { rainMm: act.rainMm }),
    ...(act.note !== null && { note: act.note }),
  };
}
