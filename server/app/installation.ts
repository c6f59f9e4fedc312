/** The parts that a running Branhearth consists of, as routes and watchers see them. */
import type { FastifyBaseLogger } from 'fastify';
import type { AuthPolicy } from '../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../ingest/ingest.ts';
import type { Clock } from '../../shared/clock.ts';
import type { Config } from '../../shared/config.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import type { NightlyBackups } from '../backup/nightly-backups.ts';
import type { Beside } from '../beside/job.ts';
import type { DiskWatch } from '../health/disk-watch.ts';
import type { SystemNotices } from '../health/system-notices.ts';
import type { BandKeeper } from '../monitor/band-keeper.ts';
import type { PileMonitor } from '../monitor/pile-monitor.ts';
import type { Delivery } from '../notify/delivery.ts';
import type { OpenDeliveryParts } from '../notify/open-delivery.ts';
import type { PilePort } from '../pile/pile-port.ts';
import type { PublishingChoice } from '../publish/publishing-choice.ts';
import type { Downsampling } from '../retention/downsampling.ts';
import type { AirAheadKeeper } from '../services/air-ahead/keep-air-ahead.ts';
import type { LiveHub } from '../services/live/live-hub.ts';
import type { People } from '../services/people/open-people.ts';
import type { PhotoStore } from '../services/photos/photo-store.ts';
import type { ForgetProbes } from '../services/probes/forget-probes.ts';
import type { ProbeBook } from '../services/probes/probe-book.ts';
import type { WeatherFetcher } from '../weather/fetch-weather.ts';

export interface Installation {
  readonly config: Pick<
    Config,
    | 'API_TOKEN'
    | 'HOST'
    | 'PORT'
    | 'TLS_CERT'
    | 'CONNECTIONS'
    | 'MQTT_ROOT'
    | 'MQTT_USERNAME'
    | 'MQTT_PASSWORD'
    | 'PUBLIC_URL'
    | 'TRUSTED_PROXIES'
  >;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly version: string;
  readonly readings: ReadingsStore;
  readonly journal: Journal;
  readonly photos: PhotoStore;
  readonly probes: ProbeBook;
  readonly watch: PilePort;
  /** The watch of this process; absent where others watch. */
  readonly watching?: PileMonitor;
  readonly ingest: Ingest;
  /** Who may connect to the embedded broker; undefined with an outside one, which has its own policy. */
  readonly authPolicy: AuthPolicy | undefined;
  readonly hub: LiveHub;
  /** What is wrong with the server itself. */
  readonly notices: SystemNotices;
  readonly disk: Pick<DiskWatch, 'health'>;
  readonly delivery: Delivery;
  /** Keeps the readings small, as the owner chose. */
  readonly downsampling: Downsampling;
  readonly forgetting: ForgetProbes;
  /** Absent where nothing is kept on this machine. */
  readonly backups?: Pick<NightlyBackups, 'view'>;
  /** Works out beside the main thread what would hold it up. */
  readonly beside: Beside;
  readonly people: People;
  /** What is published of piles for programs. */
  readonly publishing: PublishingChoice;
  /** Asks a weather service, where an owner wants that. */
  readonly weather: WeatherFetcher;
  /** Takes in what is foretold of the air. */
  readonly airAhead: AirAheadKeeper;
  /** How many sites this process watches, where several share them. */
  readonly sitesHeld?: () => number;
}

export interface OpenInstallation extends Installation {
  close(): Promise<void>;
}

export interface InstallationParts {
  readonly config: Config;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly version: string;
  readonly bands: BandKeeper;
  /** The machine's clock, by which people are signed out; given by tests only. */
  readonly machineNowMs?: () => number;
  /** For tests: what delivery trusts, and who answers it for names. */
  readonly guard?: OpenDeliveryParts['guard'];
}
