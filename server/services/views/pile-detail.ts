/** One pile with its recipe, limits and their origins, acts, and all that was looked at. */
import type { z } from 'zod';
import { evidenceView, judgementView } from '../../../core/session/assessment-view.ts';
import type { actRecordSchema, limitSchema, PileDetail } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { limitOrigins, type StageLimits, stageLimits } from '../../../shared/stage.ts';
import type { ActRecord, BatchRecord } from '../../../shared/store/journal.ts';
import type { WatchedPile } from '../../monitor/pile/watched-pile.ts';

const limitUnits: Record<keyof StageLimits, string> = {
  lengthMinH: 'h',
  lengthMaxH: 'h',
  comfortMinC: '°C',
  comfortMaxC: '°C',
  actC: '°C',
  lossC: '°C',
  moistureMinFrac: '-',
  moistureMaxFrac: '-',
  depthMinM: 'm',
  depthMaxM: 'm',
};

export async function pileDetail(one: WatchedPile, acts: readonly ActRecord[]): Promise<PileDetail> {
  const { assessment } = await one.judged();
  return {
    ...one.summary(),
    recipe: one.batch?.recipe ?? null,
    assumed: assessment ? [...assessment.assumed] : [],
    limits: one.batch ? limitsOf(one.batch) : {},
    acts: acts.map(actView),
    evidence: assessment ? evidenceView(assessment) : [],
    judgement: assessment && judgementView(assessment),
  };
}

export function limitsOf(batch: BatchRecord): Record<string, z.infer<typeof limitSchema>> {
  const usual = stageLimits[batch.stage];
  const names = Object.keys(limitUnits) as (keyof StageLimits)[];
  return Object.fromEntries(
    names.map((name) => [
      name,
      {
        value: batch.limits[name] ?? usual[name],
        unit: limitUnits[name],
        ...originView(
          batch.limits[name] === undefined ? limitOrigins[batch.stage][name] : message('origin.set-for-batch'),
        ),
      },
    ]),
  );
}

const originView = (origin: Message) => ({ origin: plainEnglish(origin), messages: { origin } });

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
