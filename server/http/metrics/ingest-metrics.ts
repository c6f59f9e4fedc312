import type { AuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import type { Ingest } from '../../../ingest/ingest.ts';
import { addCounter, addCounterByReason, type MetricsRegistry } from './registers.ts';

interface IngestMetricsParts {
  readonly ingest: Ingest;
  readonly authPolicy: AuthPolicy | undefined;
}

/** What comes in over MQTT, what became of it, and who was turned away. */
export function addIngestMetrics(registry: MetricsRegistry, { ingest, authPolicy }: IngestMetricsParts): void {
  const counters = () => ingest.counters();
  addCounter(registry, 'branhearth_messages_received', 'MQTT messages taken in', () => counters().received);
  addCounter(registry, 'branhearth_readings_stored', 'Readings committed', () => counters().stored);
  addCounter(
    registry,
    'branhearth_readings_duplicate',
    'Readings that were there already',
    () => counters().duplicates,
  );
  addCounterByReason(registry, 'branhearth_refused', 'Messages and readings refused, by reason', () =>
    ingest.refusals().refusals.map(({ reason, count }) => [reason, count] as const),
  );
  addCounterByReason(
    registry,
    'branhearth_turned_away',
    'Connections turned away, parted from or slowed at the embedded broker, by reason',
    () => Object.entries(authPolicy?.connectionAttempts.totals() ?? {}),
  );
}
