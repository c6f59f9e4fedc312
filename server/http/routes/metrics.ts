/** GET /metrics in OpenMetrics text, for whoever gathers figures of machines. */
import { Counter, collectDefaultMetrics, Gauge, type OpenMetricsContentType, Registry } from 'prom-client';
import { messageStates, notificationChannels } from '../../../shared/notifications.ts';
import { alarmStates } from '../../../shared/warning.ts';
import type { Installation } from '../../app/installation.ts';
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';

export function registerMetrics(api: Api, installation: Installation): void {
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

  counter('branhearth_messages_received', 'MQTT messages taken in', () => installation.ingest.counters().received);
  counter('branhearth_readings_stored', 'Readings committed', () => installation.ingest.counters().stored);
  counter(
    'branhearth_readings_duplicate',
    'Readings that were there already',
    () => installation.ingest.counters().duplicates,
  );
  new Counter({
    name: 'branhearth_refused',
    help: 'Messages and readings refused, by reason',
    labelNames: ['reason'],
    registers,
    collect() {
      this.reset();
      for (const { reason, count } of installation.ingest.refusals().refusals) this.inc({ reason }, count);
    },
  });
  new Counter({
    name: 'branhearth_turned_away',
    help: 'Connections turned away, parted from or slowed at the embedded broker, by reason',
    labelNames: ['reason'],
    registers,
    collect() {
      this.reset();
      for (const [reason, count] of Object.entries(installation.authPolicy?.connectionAttempts.totals() ?? {}))
        this.inc({ reason }, count);
    },
  });
  counter('branhearth_readings_thinned', 'Readings thinned to rollups', () => installation.thinning.removedInAll);
  const gauge = (name: string, help: string) => new Gauge({ name, help, registers });
  const bytes = gauge('branhearth_readings_bytes', 'Bytes that readings and rollups take up on disk');
  const thinnedBefore = gauge(
    'branhearth_readings_thinned_before_seconds',
    'Before this time only rollups are kept; 0 when nothing was thinned',
  );
  const isThinning = gauge('branhearth_thinning_running', 'Whether readings are being thinned now');
  new Gauge({
    name: 'branhearth_readings_rows',
    help: 'Readings kept as they came',
    registers,
    async collect() {
      isThinning.set(installation.thinning.running === null ? 0 : 1);
      try {
        const size = await installation.readings.size();
        this.set(size.rows);
        bytes.set(size.bytes);
        thinnedBefore.set((await installation.readings.horizon()) / 1000);
      } catch (error) {
        // The rest is worth gathering most of all while the store is away.
        installation.log.debug({ err: error }, 'no size of the readings');
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
      for (const one of installation.watch.all()) for (const state of one.openAlarms()) this.inc({ state });
    },
  });
  new Gauge({
    name: 'branhearth_messages_to_people',
    help: 'Messages to people by way and state, of the last 90 days',
    labelNames: ['way', 'state'],
    registers,
    async collect() {
      this.reset();
      for (const way of notificationChannels) for (const state of messageStates) this.set({ way, state }, 0);
      for (const { way, state, count } of await installation.journal.telling.messages.counts())
        this.set({ way, state }, count);
    },
  });
  new Gauge({
    name: 'branhearth_messages_unseen',
    help: 'Messages that could not be delivered and that nobody has looked at',
    registers,
    async collect() {
      const counts = await installation.journal.telling.messages.counts();
      this.set(counts.reduce((sum, row) => sum + (row.state === 'given-up' ? row.unseen : 0), 0));
    },
  });
  new Gauge({
    name: 'branhearth_pages_live',
    help: 'Pages listening for changes',
    registers,
    collect() {
      this.set(installation.hub.listenerCount);
    },
  });

  const response = fileAnswer('Figures of this machine.', 'application/openmetrics-text');
  api.get('/metrics', { config: { access: 'viewer' }, schema: { response } }, async (_request, reply) =>
    reply.type(registry.contentType).send(await registry.metrics()),
  );
}
