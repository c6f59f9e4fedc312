/** Asks a database which generation of InfluxDB it is. */
import { InfluxDB } from '@influxdata/influxdb-client';
import type { InfluxAddress, InfluxGeneration } from './influx-address.ts';
import { NoAnswer } from './influx-error.ts';

const patienceMs = 5_000;

/** Undefined when it answers but does not say. Rejects with what the connection failed of. */
export function findGeneration({ url, token }: InfluxAddress): Promise<InfluxGeneration | undefined> {
  const { transport } = new InfluxDB({ url, ...(token === undefined ? {} : { token }) });
  const controller = new AbortController();
  return new Promise((resolve, reject) => {
    let version = '';
    const timer = setTimeout(() => {
      reject(new NoAnswer(patienceMs));
      controller.abort();
    }, patienceMs);
    const end = () => {
      clearTimeout(timer);
      resolve(generationOf(version));
    };
    transport.send(
      '/ping',
      '',
      { method: 'GET', signal: controller.signal },
      {
        responseStarted(headers) {
          version = String(headers['x-influxdb-version'] ?? '');
        },
        error(error) {
          clearTimeout(timer);
          // Even a refusal names its version.
          if (version === '') reject(error);
          else end();
        },
        complete: end,
      },
    );
  });
}

/** @example generationOf('v2.7.1') // => 2 */
export function generationOf(version: string): InfluxGeneration | undefined {
  const major = Number(/^v?(\d+)\./.exec(version)?.[1]);
  return major === 1 || major === 2 || major === 3 ? major : undefined;
}
