import { request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';
import type { Config } from '../../shared/config.ts';
import { type Health, healthSchema } from '../../shared/contracts/health.ts';

const patienceMs = 3_000;

export function ownAddress({ HOST, PORT, TLS_CERT }: Pick<Config, 'HOST' | 'PORT' | 'TLS_CERT'>): string {
  const host = HOST === '0.0.0.0' ? '127.0.0.1' : HOST === '::' ? '::1' : HOST;
  return `${TLS_CERT === undefined ? 'http' : 'https'}://${host.includes(':') ? `[${host}]` : host}:${PORT}`;
}

/** How a server of these settings is that is at work now; undefined where none answers. */
export function ownHealth(config: Pick<Config, 'HOST' | 'PORT' | 'TLS_CERT'>): Promise<Health | undefined> {
  const url = `${ownAddress(config)}/api/health`;
  return new Promise((resolve) => {
    // It is our own machine that is asked, by a name that its certificate need not have.
    const asked = url.startsWith('https:')
      ? httpsRequest(url, { rejectUnauthorized: false, timeout: patienceMs })
      : httpRequest(url, { timeout: patienceMs });
    asked.once('timeout', () => asked.destroy());
    asked.once('error', () => resolve(undefined));
    asked.once('response', (answer) => {
      const chunks: Buffer[] = [];
      answer.on('data', (chunk: Buffer) => chunks.push(chunk));
      answer.once('error', () => resolve(undefined));
      answer.once('end', () => resolve(healthIn(Buffer.concat(chunks).toString('utf8'))));
    });
    asked.end();
  });
}

function healthIn(text: string): Health | undefined {
  try {
    return healthSchema.parse(JSON.parse(text));
  } catch {
    return undefined;
  }
}
