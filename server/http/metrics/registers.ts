/** Figures that are worked out when they are asked for. */
import { Counter, Gauge, type OpenMetricsContentType, type Registry } from 'prom-client';

export type MetricsRegistry = Registry<OpenMetricsContentType>;

export function addCounter(registry: MetricsRegistry, name: string, help: string, value: () => number): void {
  new Counter({
    name,
    help,
    registers: [registry],
    collect() {
      this.reset();
      this.inc(value());
    },
  });
}

/** @param counts Each reason with how often, newest state of it. */
export function addCounterByReason(
  registry: MetricsRegistry,
  name: string,
  help: string,
  counts: () => Iterable<readonly [reason: string, count: number]>,
): void {
  new Counter({
    name,
    help,
    labelNames: ['reason'],
    registers: [registry],
    collect() {
      this.reset();
      for (const [reason, count] of counts()) this.inc({ reason }, count);
    },
  });
}

export function addGauge(registry: MetricsRegistry, name: string, help: string, value: () => number | Promise<number>) {
  new Gauge({
    name,
    help,
    registers: [registry],
    async collect() {
      this.set(await value());
    },
  });
}
