/** GET /metrics in OpenMetrics text, for whoever gathers figures of machines. */
import type { FastifyBaseLogger } from 'fastify';
import { collectDefaultMetrics, type OpenMetricsContentType, Registry } from 'prom-client';
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../../ingest/ingest.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { PilePort } from '../../monitor/pile/pile-port.ts';
import type { Downsampling } from '../../retention/downsampling.ts';
import type { LiveHub } from '../../services/live/live-hub.ts';
import type { ProbeBook } from '../../services/probes/probe-book.ts';
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';
import { addIngestMetrics } from '../metrics/ingest-metrics.ts';
import { addNotificationMetrics } from '../metrics/notification-metrics.ts';
import { addPileMetrics } from '../metrics/pile-metrics.ts';
import { addReadingsMetrics } from '../metrics/readings-metrics.ts';
import { addGauge } from '../metrics/registers.ts';

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
  collectDefaultMetrics({ register: registry });
  addIngestMetrics(registry, parts);
  addReadingsMetrics(registry, parts);
  addNotificationMetrics(registry, parts);
  addGauge(registry, 'branhearth_pages_live', 'Pages listening for changes', () => parts.hub.listenerCount);
  addPileMetrics(registry, parts);

  const response = fileAnswer('Figures of this machine.', 'application/openmetrics-text');
  api.get('/metrics', { config: { access: 'viewer' }, schema: { response } }, async (_request, reply) =>
    reply.type(registry.contentType).send(await registry.metrics()),
  );
}
