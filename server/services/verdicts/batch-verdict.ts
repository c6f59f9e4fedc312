/** The verdict of one batch, and the reasons that its record speaks for. */
import { offeredReasons } from '../../../core/verdicts/offered-reasons.ts';
import type { VerdictAnswer } from '../../../shared/contracts/verdict.ts';
import { worded } from '../../../shared/messages/in-words.ts';
import { stageLimits } from '../../../shared/stage.ts';
import { entriesOf } from '../records/batch-record.ts';
import { comparedAll, type SeasonParts } from '../seasons/compared-batches.ts';
import { readSeasonRecords } from '../seasons/season-records.ts';

/** @returns Undefined when there is no such batch. */
export async function batchVerdict(parts: SeasonParts, batchId: string): Promise<VerdictAnswer | undefined> {
  const records = await readSeasonRecords(parts);
  const one = records.known.find(({ batch }) => batch.id === batchId);
  if (!one) return undefined;
  const [compared] = await comparedAll(parts, records, [one]);
  if (!compared) return undefined;
  const entries = await entriesOf(parts.journal, one.batch);
  const offers = offeredReasons({
    measures: compared.measures,
    limits: { ...stageLimits[one.batch.stage], ...one.batch.limits },
    entries: entries.map(({ what }) => what),
  });
  return { verdict: compared.verdict, offers: worded(offers.map(({ why, says }) => ({ why, messages: { says } }))) };
}
