/** One process with its embedded broker and SQLite, and what befalls such a server. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import { freePort } from '../../helpers/free-port.ts';
import { canMount, mountSmallDisk } from '../../helpers/small-disk.ts';
import { type SpawnedInstallation, spawnInstallation } from '../../helpers/spawn-server.ts';
import { type FaultInstallation, outOfOrder, seconds } from './fault-server.ts';
import { pagesOf } from './pages.ts';
import { steppedClock } from './stepping.ts';

const diskMb = 64;

export async function openSingleProcess(clock: string): Promise<FaultInstallation> {
  const scratch = await mkdtemp(join(tmpdir(), 'branhearth-faults-'));
  const disk = canMount ? mountSmallDisk(diskMb) : undefined;
  const dataDir = disk?.folder ?? join(scratch, 'data');
  const stepped = await steppedClock(scratch);
  const mqttPort = await freePort();
  const start = () =>
    spawnInstallation(dataDir, {
      environment: { MQTT_PORT: String(mqttPort), CLOCK: clock, LOG_LEVEL: 'info', DISK_LOW: '4' },
      nodeArguments: stepped.nodeArguments,
      plainEnvironment: stepped.plainEnvironment,
    });
  let installation: SpawnedInstallation = await start();
  const again = async (signal: NodeJS.Signals) => {
    await installation.stop(signal);
    await seconds(3);
    installation = await start();
  };

  return {
    name: 'single machine (SQLite, embedded broker)',
    mqttUrl: `mqtt://127.0.0.1:${mqttPort}`,
    pagesUrl: () => installation.pagesUrl,
    faults: [
      { name: 'broker and server stopped for 3 s', run: () => again('SIGTERM') },
      { name: 'killed (kill -9), started after 3 s', run: () => again('SIGKILL') },
      {
        name: 'killed (kill -9) four times in a row',
        async run() {
          for (let kill = 0; kill < 4; kill += 1) {
            await installation.stop('SIGKILL');
            installation = await start();
            await seconds(0.3 + 0.2 * kill);
          }
        },
      },
      {
        name: 'frozen (SIGSTOP) for 6 s',
        async run() {
          installation.child.kill('SIGSTOP');
          await seconds(6);
          installation.child.kill('SIGCONT');
        },
      },
      {
        name: 'disk full for 6 s',
        run() {
          if (!disk) return 'only root on Linux may mount a small disk to fill';
          disk.fill();
          return seconds(6).then(() => disk.free());
        },
      },
      stepped.fault,
      outOfOrder,
    ],
    stop: () => installation.stop(),
    // One process: its pages show what is committed, and nothing else.
    kept: () => pagesOf(() => installation.pagesUrl).lasts(),
    openReadings: async () => openSqliteReadings(join(dataDir, 'readings.db')),
    async remove() {
      await installation.stop('SIGKILL');
      disk?.remove();
      await rm(scratch, { recursive: true, force: true });
    },
  };
}
