import type { FastifyBaseLogger } from 'fastify';
import { Gauge } from 'prom-client';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { Downsampling } from '../../retention/downsampling.ts';
import { addCounter, addGauge, type MetricsRegistry } from './registers.ts';

interface ReadingsMetricsParts {
  readonly downsampling: Downsampling;
  readonly readings: ReadingsStore;
  readonly log: FastifyBaseLogger;
}

/** How much the readings take up, and what was downsampled of them. */
export function addReadingsMetrics(registry: MetricsRegistry, parts: ReadingsMetricsParts): void {
  const { downsampling } = parts;
  addCounter(
    registry,
    'branhearth_readings_downsampled',
    'Readings downsampled to rollups',
    () => downsampling.removedInAll,
  );
  addSize(registry, parts);
  addGauge(registry, 'branhearth_downsampling_running', 'Whether readings are being downsampled now', () =>
    downsampling.running === null ? 0 : 1,
  );
}

/** Rows, bytes and the age of downsampling stand still while the store is away, and the other figures do not wait for it. */
function addSize(registry: MetricsRegistry, { readings, log }: ReadingsMetricsParts): void {
  const registers = [registry];
  const gauge = (name: string, help: string) => new Gauge({ name, help, registers });
  const bytes = gauge('branhearth_readings_bytes', 'Bytes that readings and rollups take up on disk');
  const downsampledBefore = gauge(
    'branhearth_readings_downsampled_before_seconds',
    'Before this time only rollups are kept; 0 when nothing was downsampled',
  );
  new Gauge({
    name: 'branhearth_readings_rows',
    help: 'Readings kept as they came',
    registers,
    async collect() {
      try {
        const size = await readings.size();
        this.set(size.rows);
        bytes.set(size.bytes);
        downsampledBefore.set((await readings.watermark()) / 1000);
      } catch (error) {
        // The rest is worth gathering most of all while the store is away.
        log.debug({ err: error }, 'no size of the readings');
      }
    },
  });
}
