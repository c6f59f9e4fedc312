/**
 * Two workers and a web process on PostgreSQL, InfluxDB and Mosquitto, and what
 * befalls such a server.
 */
import { z } from 'zod';
import { openInfluxReadings } from '../../../shared/store/influx/influx-readings.ts';
import { type LineState, openFaultyLine } from '../../helpers/faulty-line.ts';
import { openTestInflux, readingsEnvironment, testInfluxName } from '../../helpers/given-influx.ts';
import { startMosquitto } from '../../helpers/mosquitto.ts';
import { makeDataDir } from '../../helpers/open-test-server.ts';
import { startPostgres } from '../../helpers/postgres.ts';
import { type SpawnedInstallation, spawnInstallation } from '../../helpers/spawn-server.ts';
import { type Fault, type FaultInstallation, outOfOrder, seconds } from './fault-server.ts';
import { steppedClock } from './stepping.ts';

const keptSchema = z.object({
  results: z.array(
    z.object({
      series: z
        .array(
          z.object({ tags: z.object({ site: z.string(), probe: z.string() }), values: z.array(z.array(z.unknown())) }),
        )
        .optional(),
    }),
  ),
});

export async function openServerInstallation(clock: string): Promise<FaultInstallation> {
  const [postgres, influx, mosquitto, folder] = await Promise.all([
    startPostgres(),
    openTestInflux(),
    startMosquitto(),
    makeDataDir(),
  ]);
  const address = await influx.newDatabase();
  const line = await openFaultyLine(influx.url);
  const stepped = await steppedClock(folder.dataDir);
  const environment = {
    JOURNAL_URL: await postgres.database(),
    ...readingsEnvironment({ ...address, url: line.url }),
    MQTT_URL: mosquitto.url,
    CLOCK: clock,
    LOG_LEVEL: 'info',
  };
  const spawn = (only: 'ingest' | 'web') =>
    spawnInstallation(folder.dataDir, {
      only,
      environment,
      // The workers' clock is set, the pages' is not: two machines.
      ...(only === 'ingest' && { nodeArguments: stepped.nodeArguments, plainEnvironment: stepped.plainEnvironment }),
    });
  const web = await spawn('web');
  const workers: SpawnedInstallation[] = [await spawn('ingest'), await spawn('ingest')];
  const lineIs = (state: LineState, forS: number) => async () => {
    line.set(state);
    await seconds(forS);
    line.set('open');
  };
  const faults: Fault[] = [
    {
      name: 'Mosquitto stopped for 4 s',
      async run() {
        await mosquitto.stop();
        await seconds(4);
        await mosquitto.start();
      },
    },
    {
      name: 'InfluxDB stopped for 5 s',
      async run() {
        await influx.stop();
        await seconds(5);
        await influx.start();
      },
    },
    {
      name: 'InfluxDB frozen for 12 s',
      async run() {
        influx.freeze();
        await seconds(12); // until a write was given up that it carries out when it wakes
        influx.wake();
      },
    },
    { name: 'InfluxDB slowed by 0.4 s a request for 6 s', run: lineIs('slow', 6) },
    { name: 'InfluxDB writes, its answer lost, for 4 s', run: lineIs('lost', 4) },
    {
      name: 'PostgreSQL stopped for 4 s',
      async run() {
        await postgres.stop();
        await seconds(4);
        await postgres.start();
      },
    },
    {
      name: 'PostgreSQL frozen (SIGSTOP) for 6 s',
      async run() {
        postgres.freeze();
        await seconds(6);
        postgres.wake();
      },
    },
    {
      name: 'a worker killed (kill -9), another started after 10 s',
      async run() {
        await workers.shift()?.stop('SIGKILL');
        await seconds(10);
        workers.push(await spawn('ingest'));
      },
    },
    {
      name: 'a worker frozen (SIGSTOP) for 12 s, past its lease',
      async run() {
        workers[0]?.child.kill('SIGSTOP');
        await seconds(12);
        workers[0]?.child.kill('SIGCONT');
      },
    },
    stepped.fault,
    outOfOrder,
    { name: 'disk full', run: () => 'the disks of servers are theirs: done on the single machine' },
  ];
  return {
    name: `servers (PostgreSQL, ${testInfluxName}, Mosquitto, two workers)`,
    mqttUrl: mosquitto.url,
    pagesUrl: () => web.pagesUrl,
    faults,
    async stop() {
      for (const one of [...workers, web]) await one.stop();
    },
    // Pages of a web process show what they hear from the broker, kept or not.
    async kept() {
      const answer = await influx.ask('SELECT last(value) FROM temperature GROUP BY site, probe', address);
      const { results } = keptSchema.parse(JSON.parse(answer));
      const series = results.flatMap((one) => one.series ?? []);
      return new Map(series.map(({ tags, values }) => [`${tags.site}/${tags.probe}`, Number(values[0]?.[0])]));
    },
    openReadings: () => openInfluxReadings(address),
    async remove() {
      for (const one of [...workers, web]) await one.stop('SIGKILL');
      await line.close();
      await Promise.all([postgres.remove(), influx.remove(), mosquitto.remove(), folder.remove()]);
    },
  };
}
