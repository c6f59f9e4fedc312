/**
 * Which probe sat at which position of which pile, from when to when.
 *
 * A probe has at most one claim at any time, and a position at most one probe that holds it now.
 */
import type { ExpressionBuilder } from 'kysely';
import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { ClaimRecord, Journal } from '../journal.ts';
import { mustHavePile } from './batch-rows.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import type { JournalTables } from './tables.ts';

export function journalClaims(base: JournalBase): Journal['claims'] {
  return {
    list: (site) =>
      base.read(async (db) => {
        const all = db.selectFrom('claim').selectAll().orderBy('from_ms').orderBy('site').orderBy('probe');
        const rows = await (site === undefined ? all : all.where(ofSite(site))).execute();
        return base.rows.all(claimPlan, rows);
      }),

    claim: (claim) =>
      base.write(async (transaction) => {
        const { site, probe, pileId, position, fromMs } = claim;
        await mustHavePile(transaction, pileId);
        await mustBeFree(transaction, claim);
        await endClaims(transaction, site, probe, fromMs);
        await transaction
          .insertInto('claim')
          .values({ site, probe, pile_id: pileId, position, from_ms: fromMs, to_ms: null })
          .execute();
      }),

    release: (site, probe, atMs) => base.write((transaction) => endClaims(transaction, site, probe, atMs)),
  };
}

/** Of its probes, and of its piles. */
function ofSite(site: string) {
  return ({ or, eb, selectFrom }: ExpressionBuilder<JournalTables, 'claim'>) =>
    or([
      eb('claim.site', '=', site),
      eb('claim.pile_id', 'in', selectFrom('pile').select('pile.id').where('pile.site_id', '=', site)),
    ]);
}

export const claimPlan: RowPlan<'claim', ClaimRecord> = {
  table: 'claim',
  toRecord: (row) => ({
    site: row.site,
    probe: row.probe,
    pileId: row.pile_id,
    position: row.position,
    fromMs: row.from_ms,
    toMs: row.to_ms,
  }),
};

async function mustBeFree(
  transaction: JournalTransaction,
  { site, probe, pileId, position }: Omit<ClaimRecord, 'toMs'>,
): Promise<void> {
  const holder = await transaction
    .selectFrom('claim')
    .select(['site', 'probe'])
    .where('pile_id', '=', pileId)
    .where('position', '=', position)
    .where('to_ms', 'is', null)
    .executeTakeFirst();
  if (holder && (holder.site !== site || holder.probe !== probe)) {
    throw new ConflictError(
      message('problem.position-taken', { position, pileText: pileId, probeText: holder.probe }),
      '/position',
    );
  }
}

/** Nothing of the probe's claims is left from `atMs` on: what began later goes, what reached further is cut. */
async function endClaims(transaction: JournalTransaction, site: string, probe: string, atMs: number): Promise<void> {
  await transaction
    .deleteFrom('claim')
    .where('site', '=', site)
    .where('probe', '=', probe)
    .where('from_ms', '>=', atMs)
    .execute();
  await transaction
    .updateTable('claim')
    .set({ to_ms: atMs })
    .where('site', '=', site)
    .where('probe', '=', probe)
    .where((where) => where.or([where('to_ms', 'is', null), where('to_ms', '>', atMs)]))
    .execute();
}
