/** The composition root: opens the stores, starts ingest and watching, and closes them in order. */
import { join } from 'node:path';
import type { FastifyBaseLogger } from 'fastify';
import type { AuthPolicy } from '../../ingest/auth/auth-policy.ts';
import type { HubListener } from '../../ingest/commit/intake.ts';
import type { Ingest, IngestOptions } from '../../ingest/ingest.ts';
import { startIngest } from '../../ingest/start-ingest.ts';
import type { Config } from '../../shared/config.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { openJournal } from '../../shared/store/open/open-journal.ts';
import { openReadings } from '../../shared/store/open/open-readings.ts';
import { backUpBeforeMigration } from '../backup/before-migration.ts';
import { NightlyBackups } from '../backup/nightly-backups.ts';
import { holdWhole } from '../cluster/single-process.ts';
import { makeDataFolder } from '../health/data-folder.ts';
import { openSafe } from '../health/open-health.ts';
import { Downsampling } from '../retention/downsampling.ts';
import type { AirAheadKeeper } from '../services/air-ahead/keep-air-ahead.ts';
import { PhotoCleanUp } from '../services/photos/photo-clean-up.ts';
import { PhotoFiles } from '../services/photos/photo-files.ts';
import { type PhotoStore, photosInJournal } from '../services/photos/photo-store.ts';
import { openAuthPolicy } from '../services/probe-keys/open-auth-policy.ts';
import { followProbes } from '../services/probes/follow-probes.ts';
import { ForgetProbes } from '../services/probes/forget-probes.ts';
import { closeInOrder } from './closing.ts';
import { hubListener } from './hub-listener.ts';
import type { InstallationParts, OpenInstallation } from './installation.ts';
import { openAirAhead } from './open-air-ahead.ts';
import { openServices, type Services } from './open-services.ts';
import { openWatching } from './open-watching.ts';
import { outsideBroker } from './outside-source.ts';

export async function openInstallation(parts: InstallationParts): Promise<OpenInstallation> {
  const { config, clock, log, bands } = parts;
  await makeDataFolder(config.DATA_DIR);
  const backupFolder = config.BACKUP_DIR ?? join(config.DATA_DIR, 'backups');
  const { readings, journal } = await openStores(parts, backupFolder);
  const whole = config.JOURNAL_URL === undefined ? undefined : await holdWhole(journal, log);
  const { disk, notices } = await openSafe(config, clock, log);
  const photos = photosOf(config, journal);
  const services = await openServices(parts, { readings, journal, photos });
  const { hub, probes } = services;
  const lease = whole ? { whole: { lease: whole.lease, lost: () => endTakenOver(log) } } : {};
  const watching = await openWatching({ ...parts, services, notices, lease });
  const { watch, delivery } = watching;

  const { airAhead, weather } = openAirAhead(parts, services, { issued: (site) => watch.airAheadIssued(site) });
  const authPolicy = config.MQTT_URL === undefined ? await openAuthPolicy(config, clock, journal) : undefined;
  const hubs = hubListener({ ...services, watch, hubCameUp: () => watching.introduceAnew() });
  const ingest = await ingestOf(services, sourceOf(config, authPolicy), { airAhead, hubs });
  const notifying = await watching.start(ingest);
  const downsampling = new Downsampling({ clock, log, journal, readings });
  const forgetting = new ForgetProbes({ log, journal, readings, probes, hub, root: config.MQTT_ROOT, ingest });
  const photoCleanUp = new PhotoCleanUp({ clock, log, journal, photos });
  photoCleanUp.start();
  const backups = new NightlyBackups({ config, folder: backupFolder, log, notices, nowMs: parts.machineNowMs });
  await backups.start();
  weather.start();

  return {
    ...services,
    airAhead,
    weather,
    watch,
    watching: watch,
    ingest,
    authPolicy,
    notices,
    disk,
    delivery,
    downsampling,
    forgetting,
    backups,
    close: () =>
      closeInOrder(
        backups,
        weather,
        notifying,
        disk,
        photoCleanUp,
        ingest,
        downsampling,
        forgetting,
        watch,
        delivery,
        bands,
        hub,
        readings,
        whole,
        journal,
      ),
  };
}

/** Backs the journal up first, where opening it would change its layout. */
async function openStores({ config, log, version, machineNowMs = Date.now }: InstallationParts, backupFolder: string) {
  if (config.BACKUPS > 0) {
    const { DATA_DIR: dataDir } = config;
    await backUpBeforeMigration({ dataDir, folder: backupFolder, version, nowMs: machineNowMs(), log });
  }
  const readings = await openReadings(config);
  const journal = await openJournal(config.JOURNAL_URL, config.DATA_DIR);
  return { readings, journal };
}

async function ingestOf(
  { config, clock, log, readings, journal, probes, hub }: Services,
  source: IngestOptions['source'],
  { airAhead, hubs }: { airAhead: AirAheadKeeper; hubs: HubListener },
): Promise<Ingest> {
  return startIngest({
    store: readings,
    clock,
    root: config.MQTT_ROOT,
    recognisesDevices: config.MQTT_DEVICES === 'yes',
    source,
    mappings: await journal.mappings.list(),
    ...followProbes({ probes, hub, log, keepIn: journal }),
    onAirAhead: (site, ahead) => airAhead.take(site, ahead),
    hubs,
    log,
  });
}

function photosOf({ JOURNAL_URL, DATA_DIR }: Config, journal: Journal): PhotoStore {
  return JOURNAL_URL === undefined ? new PhotoFiles(join(DATA_DIR, 'photos')) : photosInJournal(journal);
}

function endTakenOver(log: FastifyBaseLogger): void {
  log.fatal('another process has taken over this journal; this one ends');
  process.kill(process.pid, 'SIGTERM');
}

function sourceOf(config: Config, authPolicy: AuthPolicy | undefined): IngestOptions['source'] {
  if (config.MQTT_URL === undefined) {
    const { MQTT_TLS_CERT: certFile, MQTT_TLS_KEY: keyFile } = config;
    return {
      kind: 'embedded',
      port: config.MQTT_PORT,
      host: config.MQTT_HOST,
      authPolicy,
      maxConnections: config.MQTT_CONNECTIONS,
      packetsPerSecond: config.MQTT_RATE,
      ...(certFile !== undefined &&
        keyFile !== undefined && {
          tls: { port: config.MQTT_TLS_PORT, host: config.MQTT_TLS_HOST, certFile, keyFile },
        }),
    };
  }
  return { kind: 'outside', ...outsideBroker(config) };
}
