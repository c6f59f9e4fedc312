/** All figures of this process, in OpenMetrics. */
import type { FastifyBaseLogger } from 'fastify';
import { collectDefaultMetrics, type OpenMetricsContentType, Registry } from 'prom-client';
import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../../ingest/ingest.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import type { Downsampling } from '../../retention/downsampling.ts';
import type { LiveHub } from '../../services/live/live-hub.ts';
import type { ProbeBook } from '../../services/probes/probe-book.ts';
import { addIngestMetrics } from './ingest-metrics.ts';
import { addNotificationMetrics } from './notification-metrics.ts';
import { addPileMetrics } from './pile-metrics.ts';
import { addReadingsMetrics } from './readings-metrics.ts';
import { addGauge, type MetricsRegistry } from './registers.ts';

export interface MetricsParts {
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

export function metricsRegistry(parts: MetricsParts): MetricsRegistry {
  const registry = new Registry<OpenMetricsContentType>();
  registry.setContentType(Registry.OPENMETRICS_CONTENT_TYPE);
  collectDefaultMetrics({ register: registry });
  addIngestMetrics(registry, parts);
  addReadingsMetrics(registry, parts);
  addNotificationMetrics(registry, parts);
  addGauge(registry, 'branhearth_pages_live', 'Pages listening for changes', () => parts.hub.listenerCount);
  addPileMetrics(registry, parts);
  return registry;
}
