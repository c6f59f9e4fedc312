/** Asks a server of these settings how it is. Imports little: containers run it every minute (`alive.ts`). */
import { request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';

const patienceMs = 3_000;

export interface OwnServer {
  readonly HOST: string;
  readonly PORT: number | string;
  readonly TLS_CERT?: string | undefined;
}

/** "All addresses" is none that can be asked. */
export function ownAddress({ HOST, PORT, TLS_CERT }: OwnServer): string {
  const host = HOST === '0.0.0.0' ? '127.0.0.1' : HOST === '::' ? '::1' : HOST;
  return `${TLS_CERT === undefined ? 'http' : 'https'}://${host.includes(':') ? `[${host}]` : host}:${PORT}`;
}

/** What it answers to /api/health; undefined where nobody does. */
export function askOwnServer(own: OwnServer): Promise<{ status: number; text: string } | undefined> {
  const url = `${ownAddress(own)}/api/health`;
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
      answer.once('end', () =>
        resolve({ status: answer.statusCode ?? 0, text: Buffer.concat(chunks).toString('utf8') }),
      );
    });
    asked.end();
  });
}
