/**
 * Reads every row once, so that those that cannot be read are known though nobody asked for them: a question passes over
 * a row whose damaged column it asks by.
 */
import { sql } from 'kysely';
import { airAheadPlan } from './air-ahead.ts';
import { alarmPlan, stepPlan } from './alarms.ts';
import { tokenPlan } from './api-tokens.ts';
import { countedPlan } from './attempts.ts';
import { auditPlan } from './audit.ts';
import { batchPlan } from './batch-rows.ts';
import { claimPlan } from './claims.ts';
import { commandPlan } from './commands.ts';
import { messagePlan, noticePlan } from './delivery-rows.ts';
import { entryPlan } from './entry-rows.ts';
import type { JournalBase } from './journal-base.ts';
import { leasePlan, workerPlan } from './leases.ts';
import { storyPlan } from './lineage.ts';
import { flowPlan, usePlan } from './lineage-rows.ts';
import { linkPlan } from './link-maker.ts';
import { lotPlan } from './lots.ts';
import { mailAddressPlan } from './mail-addresses.ts';
import { mappingPlan } from './mappings.ts';
import { attemptPlan } from './messages.ts';
import {
  devicePlan,
  escalationPlan,
  escalationStepPlan,
  notificationLinkPlan,
  preferencesPlan,
} from './notification-preferences.ts';
import { personPlan } from './person-row.ts';
import { photoPlan } from './photos.ts';
import { pilePlan } from './piles.ts';
import { keyPlan } from './probe-keys.ts';
import { probePlan } from './probes.ts';
import type { RowPlan } from './read-rows.ts';
import { keyColumns, type ReadTable, rowId } from './row-schemas.ts';
import { sessionPlan } from './sessions.ts';
import { sitePlan } from './sites.ts';
import type { JournalTables } from './tables.ts';

type Plans = { readonly [Table in Exclude<ReadTable, 'watch' | 'pile_view'>]: RowPlan<Table, unknown> };

/** Caches are left out: each is read whole where it is wanted. */
const plans: Plans = {
  site: sitePlan,
  pile: pilePlan,
  batch: batchPlan,
  probe: probePlan,
  claim: claimPlan,
  entry: entryPlan,
  photo: photoPlan,
  batch_story: storyPlan,
  lot: lotPlan,
  use_of_batch: usePlan,
  flow: flowPlan,
  alarm: alarmPlan,
  alarm_step: stepPlan,
  mapping: mappingPlan,
  air_ahead: airAheadPlan,
  broker_key: keyPlan,
  notice: noticePlan,
  message: messagePlan,
  message_attempt: attemptPlan,
  notification_preferences: preferencesPlan,
  push_device: devicePlan,
  escalation: escalationPlan,
  escalation_step: escalationStepPlan,
  notification_link: notificationLinkPlan,
  mail_address: mailAddressPlan,
  person: personPlan,
  session: sessionPlan,
  link: linkPlan,
  api_token: tokenPlan,
  attempt: countedPlan,
  audit: auditPlan,
  lease: leasePlan,
  worker: workerPlan,
  pile_command: commandPlan,
};

const pageRows = 500;

/** @param rest Called after each page, so that others get their turn; ends it early by returning false. */
export async function examine(base: JournalBase, rest: () => Promise<boolean>): Promise<void> {
  for (const plan of Object.values(plans)) {
    if (!(await examineTable(base, plan as RowPlan<ReadTable, unknown>, rest))) return;
  }
}

/** @returns false when it was ended early. */
async function examineTable(
  base: JournalBase,
  plan: RowPlan<ReadTable, unknown>,
  rest: () => Promise<boolean>,
): Promise<boolean> {
  const { table } = plan;
  const bad = new Set<string>();
  for (let offset = 0; ; offset += pageRows) {
    const rows = await pageOf(base, table, offset);
    for (const row of rows) {
      base.rows.read(plan, row);
      const id = rowId(table, row);
      if (base.unreadable.has(table, id)) bad.add(id);
    }
    if (!(await rest())) return false;
    if (rows.length === pageRows) continue;
    base.unreadable.keepOnly(table, bad);
    return true;
  }
}

async function pageOf(base: JournalBase, table: ReadTable, offset: number): Promise<JournalTables[ReadTable][]> {
  const order = sql.join(keyColumns(table).map((column) => sql.ref(column)));
  const rows = await base.read((db) =>
    db.selectFrom(table).selectAll().orderBy(order).limit(pageRows).offset(offset).execute(),
  );
  return rows as JournalTables[ReadTable][];
}
