/**
 * Certificate and key of the server, read from files, and again when they were renewed. It never lets go of a
 * certificate that works for one that does not: the old one stays, and the log says why.
 */

import { unwatchFile, watchFile } from 'node:fs';
import { readFile } from 'node:fs/promises';
import type { Server } from 'node:https';
import { createSecureContext } from 'node:tls';
import type { FastifyBaseLogger } from 'fastify';
import type { Config } from '../../shared/config.ts';
import { ConfigError } from '../../shared/errors.ts';

export interface TlsFiles {
  readonly cert: string;
  readonly key: string;
}

type TlsConfig = Pick<Config, 'TLS_CERT' | 'TLS_KEY'>;

const lookEveryMs = 30_000;

/**
 * @returns Undefined when no TLS is configured.
 * @throws {ConfigError} One line that names the file which cannot be used.
 */
export async function readTls({ TLS_CERT, TLS_KEY }: TlsConfig): Promise<TlsFiles | undefined> {
  if (TLS_CERT === undefined || TLS_KEY === undefined) return undefined;
  const [cert, key] = await Promise.all([textOf('TLS_CERT', TLS_CERT), textOf('TLS_KEY', TLS_KEY)]);
  try {
    createSecureContext({ cert, key });
  } catch (error) {
    throw new ConfigError(
      `BRANHEARTH_TLS_CERT and _TLS_KEY must be a certificate and the key that belongs to it (PEM); they were ${JSON.stringify(TLS_CERT)} and ${JSON.stringify(TLS_KEY)} (${error instanceof Error ? error.message : error})`,
      { cause: error },
    );
  }
  return { cert, key };
}

async function textOf(name: string, path: string): Promise<string> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    throw new ConfigError(
      `BRANHEARTH_${name} must be a file that this program may read; it was ${JSON.stringify(path)} (${error instanceof Error ? error.message : error})`,
      { cause: error },
    );
  }
}

/** Reads the files again on SIGHUP and when they changed. @returns how to stop. */
export function keepTlsFresh(server: Server, config: TlsConfig, log: FastifyBaseLogger): () => void {
  const renew = async () => {
    try {
      const files = await readTls(config);
      if (!files) return;
      server.setSecureContext(files);
      log.info('certificate read anew');
    } catch (error) {
      log.error({ err: error }, 'the new certificate cannot be used; the one before stays');
    }
  };
  const hear = () => void renew();
  process.on('SIGHUP', hear);
  const paths = [config.TLS_CERT, config.TLS_KEY].filter((path) => path !== undefined);
  for (const path of paths) watchFile(path, { interval: lookEveryMs, persistent: false }, hear);
  return () => {
    process.off('SIGHUP', hear);
    for (const path of paths) unwatchFile(path, hear);
  };
}
