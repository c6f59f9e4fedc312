/**
 * Claims of what is measured by hand, kept with the entry in one transaction. They name the series that the readings store keeps
 * it under, so that whoever follows claims finds it.
 */
import type { EntryFacts } from '../../entry.ts';
import { handClaimEndMs, handProbe, handSeries } from '../../hand-series.ts';
import type { Position } from '../../names.ts';
import type { JournalTransaction } from './journal-base.ts';

/** The place gets its series with its first entry. */
export async function claimForHand(transaction: JournalTransaction, pileId: string, what: EntryFacts): Promise<void> {
  if (what.kind !== 'measured') return;
  if ((await standing(transaction, pileId, what.position)) === undefined) {
    await insertClaim(transaction, pileId, what.position, 1);
  }
}

/** What was said of these places is no longer what it was: their series begin anew. */
export async function renewHandClaims(
  transaction: JournalTransaction,
  pileId: string,
  positions: ReadonlySet<Position>,
): Promise<void> {
  for (const position of positions) {
    const before = await standing(transaction, pileId, position);
    if (before !== undefined) {
      await transaction.deleteFrom('claim').where('pile_id', '=', pileId).where('probe', '=', before.probe).execute();
    }
    await insertClaim(transaction, pileId, position, (before?.edition ?? 0) + 1);
  }
}

async function standing(transaction: JournalTransaction, pileId: string, position: Position) {
  const rows = await transaction
    .selectFrom('claim')
    .select('probe')
    .where('pile_id', '=', pileId)
    .where('position', '=', position)
    .where('to_ms', '=', handClaimEndMs)
    .execute();
  for (const { probe } of rows) {
    const series = handSeries(probe);
    if (series) return { probe, edition: series.edition };
  }
  return undefined;
}

async function insertClaim(
  transaction: JournalTransaction,
  pileId: string,
  position: Position,
  edition: number,
): Promise<void> {
  const { site_id: site } = await transaction
    .selectFrom('pile')
    .select('site_id')
    .where('id', '=', pileId)
    .executeTakeFirstOrThrow();
  await transaction
    .insertInto('claim')
    .values({
      site,
      probe: handProbe(pileId, position, edition),
      pile_id: pileId,
      position,
      from_ms: 0,
      to_ms: handClaimEndMs,
    })
    .execute();
}
