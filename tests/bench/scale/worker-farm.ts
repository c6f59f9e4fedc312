/**
 * So many workers on servers of their own, Mosquitto before them, PostgreSQL and InfluxDB behind, with every site held
 * and heard; and what each program has used of the processor.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import { beatMs } from '../../../server/cluster/worker.ts';
import { openInfluxReadings } from '../../../shared/store/influx/influx-readings.ts';
import { openPostgresJournal } from '../../../shared/store/journal/postgres-journal.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { readingsEnvironment } from '../../helpers/given-influx.ts';
import { startInflux } from '../../helpers/influxdb.ts';
import { startMosquitto } from '../../helpers/mosquitto.ts';
import { makeDataDir } from '../../helpers/open-test-server.ts';
import { startPostgres } from '../../helpers/postgres.ts';
import { type SpawnedInstallation, spawnInstallation } from '../../helpers/spawn-server.ts';
import { storedCount } from '../../helpers/stored-count.ts';
import { until } from '../../helpers/until.ts';
import { sum } from '../table.ts';
import { childrenCalled, cpuSOf, cpuSOfFamily } from './cpu-time.ts';

const settlesWithinMs = 300_000;

/** Processor time since a beginning of their own [s]. */
export interface FarmCpu {
  readonly worker: number;
  readonly postgres: number;
  readonly influx: number;
  readonly mosquitto: number;
}

export interface WorkerFarm {
  readonly mqtt: { readonly port: number; readonly url: string };
  cpu(): FarmCpu;
  /** Readings that workers say are kept. */
  kept(): Promise<number>;
  /** Ends the workers in order. @returns the rows in InfluxDB then. */
  stop(): Promise<number>;
  remove(): Promise<void>;
}

/** @param lay Writes the farm before the first worker is there. */
export async function openWorkerFarm(
  count: number,
  sites: readonly string[],
  environment: Readonly<Record<string, string>> = {},
  lay?: (journal: Journal) => Promise<void>,
): Promise<WorkerFarm> {
  const [postgres, influx, mosquitto, folder] = await Promise.all([
    startPostgres(),
    startInflux(),
    startMosquitto(),
    makeDataDir(),
  ]);
  const workers: SpawnedInstallation[] = [];
  async function remove(): Promise<void> {
    for (const one of workers) await one.stop('SIGKILL');
    await Promise.all([postgres.remove(), influx.remove(), mosquitto.remove(), folder.remove()]);
  }
  try {
    const address = await influx.newDatabase();
    const journalUrl = await postgres.database();
    const journal = await openPostgresJournal(journalUrl);
    await lay?.(journal);
    const where = {
      JOURNAL_URL: journalUrl,
      ...readingsEnvironment(address),
      MQTT_URL: mosquitto.url,
      LOG_LEVEL: 'info',
      UNCLAIMED_PROBES: '100000',
    };
    for (let index = 0; index < count; index += 1) {
      workers.push(
        await spawnInstallation(folder.dataDir, { only: 'ingest', environment: { ...where, ...environment } }),
      );
    }
    await settle(journal, count, sites);
    await journal.close();
    return {
      mqtt: mosquitto,
      cpu: () => ({
        worker: sum(workers.map(({ child }) => cpuSOf(child.pid))),
        postgres: sum(childrenCalled('postgres').map(cpuSOfFamily)),
        influx: sum(childrenCalled('influxd').map(cpuSOf)),
        mosquitto: sum(childrenCalled('mosquitto').map(cpuSOf)),
      }),
      kept: async () => sum(await Promise.all(workers.map(storedCount))),
      async stop() {
        for (const one of workers) await one.stop();
        const store = await openInfluxReadings(address);
        const { rows } = await store.size();
        await store.close();
        return rows;
      },
      remove,
    };
  } catch (error) {
    await remove();
    throw error;
  }
}

/** Every site held, about as many by each worker, heard by a session of its own, and whoever hears for all knows so. */
async function settle(journal: Journal, count: number, sites: readonly string[]): Promise<void> {
  await journal.leases.know([...sites]);
  const look = async () => {
    const { leases } = await journal.leases.table();
    const held = new Map<string, number>();
    for (const { holder } of leases) if (holder !== null) held.set(holder, (held.get(holder) ?? 0) + 1);
    const shares = [...held.values()];
    const ready =
      leases.length > sites.length && leases.every(({ holder, heard, site }) => holder && (heard || site === '+'));
    const fair = shares.length === count && Math.max(...shares) - Math.min(...shares) <= 1;
    return (ready && fair) || undefined;
  };
  await until(`${count} workers to share ${sites.length} sites`, look, settlesWithinMs);
  // Who hears for all learns with its next beat which sites it may leave alone. Till then it takes them in as well:
  // both workers would count the same readings as kept, and the run would end before the last were published.
  await sleep(2 * beatMs);
}
