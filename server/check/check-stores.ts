import { join } from 'node:path';
import type { Config } from '../../shared/config.ts';
import type { InspectedJournal } from '../../shared/store/journal/inspected-journal.ts';
import { layoutOf } from '../../shared/store/open/inspect-journal.ts';
import { inspectReadings } from '../../shared/store/open/inspect-readings.ts';
import { influxAddressOf } from '../../shared/store/open/open-readings.ts';
import { type Finding, mendFor, messageOf } from './finding.ts';

const soon = 'an earlier version wrote it; its tables are brought to today’s at the next start, after a backup';

/** Whether readings can be kept: in InfluxDB a point is written, read and taken away. */
export async function checkReadings(config: Config): Promise<Finding> {
  const part = 'readings';
  const { READINGS_URL: url, DATA_DIR } = config;
  try {
    if (url === undefined) {
      const path = join(DATA_DIR, 'readings.db');
      const found = inspectReadings(path);
      if (found === 'none yet') return { part, state: 'ok', says: `none yet: ${path} is made at the first start` };
      return {
        part,
        state: 'ok',
        says: `${path} is whole and can be written${found === 'earlier' ? `; ${soon}` : ''}`,
      };
    }
    const { checkInflux } = await import('../../shared/store/influx/open-influx.ts'); // most have none
    const { generation, bucket } = await checkInflux(influxAddressOf(config, url));
    const removed =
      generation === 3 ? '; this generation takes no rows away, so one point of it stays' : ', and removed';
    return {
      part,
      state: 'ok',
      says: `InfluxDB ${generation} at ${url}: a point was written to “${bucket}”, read back as it was${removed}`,
    };
  } catch (error) {
    return { part, state: 'wrong', says: messageOf(error) };
  }
}

/** @param open What it lies in; undefined where there is none yet. */
export async function checkJournal(
  config: Config,
  open: () => Promise<InspectedJournal | undefined>,
): Promise<Finding> {
  const part = 'journal';
  try {
    const look = await open();
    if (look === undefined) {
      return { part, state: 'ok', says: `none yet: ${join(config.DATA_DIR, 'journal.db')} is made at the first start` };
    }
    await look.tryWriting();
    if (!(await hasTables(look))) {
      return { part, state: 'ok', says: `${look.where} lets us make tables; the journal is made at the first start` };
    }
    const { later, missing } = await layoutOf(look);
    if (later.length > 0) {
      return {
        part,
        state: 'wrong',
        says: `${look.where} was written by a later version (${later.join(', ')})`,
        mend: 'install that version again, or put back a backup of before its update',
      };
    }
    return {
      part,
      state: 'ok',
      says: `${look.where} can be read and written${missing > 0 ? `; ${soon}` : ''}`,
    };
  } catch (error) {
    return { part, state: 'wrong', says: messageOf(error), mend: journalMend(error) };
  }
}

/** A file that has none is no journal of ours, which its own question then says. */
async function hasTables(look: InspectedJournal): Promise<boolean> {
  return look.inFile || (await look.ask(`SELECT to_regclass('journal_migration') AS found`))[0]?.found !== null;
}

function journalMend(error: unknown): string | undefined {
  return mendFor(error, [
    [/28P01|28000/, 'put the right user and password into BRANHEARTH_JOURNAL_URL, or let that user in (pg_hba.conf)'],
    [/3D000/, 'make it: createdb --owner=USER NAME'],
    [/42501/, 'make that user the owner of the database: ALTER DATABASE name OWNER TO user'],
    [
      /ECONNREFUSED|in time|EHOSTUNREACH|ENETUNREACH/,
      'start PostgreSQL there, or put its address into BRANHEARTH_JOURNAL_URL',
    ],
    [/ENOTFOUND|EAI_AGAIN/, 'put the right name into BRANHEARTH_JOURNAL_URL'],
    [/25006/, 'put the address of the server that takes writes into BRANHEARTH_JOURNAL_URL'],
    [/cannot be trusted/, 'name the file of the authority in the address: ?sslmode=verify-full&sslrootcert=/path'],
  ]);
}
