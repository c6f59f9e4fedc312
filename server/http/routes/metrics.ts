/** GET /metrics in OpenMetrics text, for whoever gathers figures of machines; what makes it is loaded when somebody first does. */
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';
import type { MetricsParts } from '../metrics/metrics-registry.ts';
import type { MetricsRegistry } from '../metrics/registers.ts';

export function registerMetrics(api: Api, parts: MetricsParts): void {
  let opened: Promise<MetricsRegistry> | undefined;
  const open = async () => (await import('../metrics/metrics-registry.ts')).metricsRegistry(parts);

  const response = fileAnswer('Figures of this machine.', 'application/openmetrics-text');
  api.get('/metrics', { config: { access: 'viewer' }, schema: { response } }, async (_request, reply) => {
    opened ??= open();
    const registry = await opened;
    return reply.type(registry.contentType).send(await registry.metrics());
  });
}
