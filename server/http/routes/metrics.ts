/** GET /metrics in OpenMetrics text, for whoever gathers figures of machines. */
import type { FastifyBaseLogger } from 'fastify';
import { Counter, collectDefaultMetrics, Gauge, type OpenMetricsContentType, Registry } from 'prom-client';
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../../ingest/start-ingest.ts';
import { messageStates, notificationChannels } from '../../../shared/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { alarmStates } from '../../../shared/warning.ts';
import type { PilePort } from '../../monitor/pile/pile-port.ts';
import type { Downsampling } from '../../retention/downsampling.ts';
import type { LiveHub } from '../../services/live/live-hub.ts';
import type { ProbeBook } from '../../services/probes/probe-book.ts';
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';
import { registerPileMetrics } from './pile-metrics.ts';

interface MetricsParts {
  readonly ingest: Ingest;
  readonly authPolicy: AuthPolicy | undefined;
  readonly downsampling: Downsampling;
  readonly readings: ReadingsStore;
  readonly log: FastifyBaseLogger;
  readonly watch: PilePort;
  readonly journal: Journal;
  readonly hub: LiveHub;
  readonly probes: ProbeBook;
  readonly version: string;
}

export function registerMetrics(api: Api, parts: MetricsParts): void {
  const registry = new Registry<OpenMetricsContentType>();
  registry.setContentType(Registry.OPENMETRICS_CONTENT_TYPE);
  const registers = [registry];
  collectDefaultMetrics({ register: registry });

  const counter = (name: string, help: string, value: () => number) =>
    new Counter({
      name,
      help,
      registers,
      collect() {
        this.reset();
        this.inc(value());
      },
    });

  counter('branhearth_messages_received', 'MQTT messages taken in', () => parts.ingest.counters().received);
  counter('branhearth_readings_stored', 'Readings committed', () => parts.ingest.counters().stored);
  counter(
    'branhearth_readings_duplicate',
    'Readings that were there already',
    () => parts.ingest.counters().duplicates,
  );
  new Counter({
    name: 'branhearth_refused',
    help: 'Messages and readings refused, by reason',
    labelNames: ['reason'],
    registers,
    collect() {
      this.reset();
      for (const { reason, count } of parts.ingest.refusals().refusals) this.inc({ reason }, count);
    },
  });
  new Counter({
    name: 'branhearth_turned_away',
    help: 'Connections turned away, parted from or slowed at the embedded broker, by reason',
    labelNames: ['reason'],
    registers,
    collect() {
      this.reset();
      for (const [reason, count] of Object.entries(parts.authPolicy?.connectionAttempts.totals() ?? {}))
        this.inc({ reason }, count);
    },
  });
  counter('branhearth_readings_thinned', 'Readings thinned to rollups', () => parts.downsampling.removedInAll);
  const gauge = (name: string, help: string) => new Gauge({ name, help, registers });
  const bytes = gauge('branhearth_readings_bytes', 'Bytes that readings and rollups take up on disk');
  const thinnedBefore = gauge(
    'branhearth_readings_thinned_before_seconds',
    'Before this time only rollups are kept; 0 when nothing was thinned',
  );
  const isDownsampling = gauge('branhearth_thinning_running', 'Whether readings are being thinned now');
  new Gauge({
    name: 'branhearth_readings_rows',
    help: 'Readings kept as they came',
    registers,
    async collect() {
      isDownsampling.set(parts.downsampling.running === null ? 0 : 1);
      try {
        const size = await parts.readings.size();
        this.set(size.rows);
        bytes.set(size.bytes);
        thinnedBefore.set((await parts.readings.horizon()) / 1000);
      } catch (error) {
        // The rest is worth gathering most of all while the store is away.
        parts.log.debug({ err: error }, 'no size of the readings');
      }
    },
  });
  new Gauge({
    name: 'branhearth_alarms',
    help: 'Open alarms by state',
    labelNames: ['state'],
    registers,
    collect() {
      this.reset();
      for (const state of alarmStates) this.set({ state }, 0);
      for (const one of parts.watch.all()) for (const state of one.openAlarms()) this.inc({ state });
    },
  });
  new Gauge({
    name: 'branhearth_messages_to_people',
    help: 'Messages to people by channel and state, of the last 90 days',
    labelNames: ['channel', 'state'],
    registers,
    async collect() {
      this.reset();
      for (const channel of notificationChannels) for (const state of messageStates) this.set({ channel, state }, 0);
      for (const { channel, state, count } of await parts.journal.notifications.messages.counts())
        this.set({ channel, state }, count);
    },
  });
  new Gauge({
    name: 'branhearth_messages_unseen',
    help: 'Messages that could not be delivered and that nobody has looked at',
    registers,
    async collect() {
      const counts = await parts.journal.notifications.messages.counts();
      this.set(counts.reduce((sum, row) => sum + (row.state === 'given-up' ? row.unseen : 0), 0));
    },
  });
  new Gauge({
    name: 'branhearth_pages_live',
    help: 'Pages listening for changes',
    registers,
    collect() {
      this.set(parts.hub.listenerCount);
    },
  });

  registerPileMetrics(registry, parts);

  const response = fileAnswer('Figures of this machine.', 'application/openmetrics-text');
  api.get('/metrics', { config: { access: 'viewer' }, schema: { response } }, async (_request, reply) =>
    reply.type(registry.contentType).send(await registry.metrics()),
  );
}
