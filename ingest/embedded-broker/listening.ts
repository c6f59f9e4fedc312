/**
 * The ports of the embedded broker: plain, and TLS from certificate files. It never goes on without TLS when TLS was
 * asked for.
 */
import { readFileSync, statSync } from 'node:fs';
import { createServer, type Server, type Socket } from 'node:net';
import { createServer as createTlsServer, type TLSSocket, type Server as TlsServer } from 'node:tls';
import { ConfigError } from '../../shared/errors.ts';
import { listenProblem } from '../../shared/listen-problem.ts';
import type { IngestLog } from '../commit/inbound-source.ts';

export interface ListenAt {
  /** 0 takes any free one. */
  readonly port: number;
  readonly host: string;
}

export interface TlsListenAt extends ListenAt {
  readonly certFile: string;
  readonly keyFile: string;
}

export interface Listening {
  readonly url: string;
  stop(): void;
}

/** What each way of listening calls its settings, for the one line that stops a start. */
const plainNames = { port: 'BRANHEARTH_MQTT_PORT', host: 'BRANHEARTH_MQTT_HOST' };
const tlsNames = { port: 'BRANHEARTH_MQTT_TLS_PORT', host: 'BRANHEARTH_MQTT_TLS_HOST' };

const checkFilesEveryMs = 60_000;
/** A handshake that takes longer is ended. */
const handshakeMs = 10_000;

/**
 * @param arrive Says whether a connection may stay, before anything is read from it.
 * @param speak Gets it once it can speak MQTT.
 */
export async function listenPlain(
  at: ListenAt,
  arrive: (socket: Socket) => boolean,
  speak: (socket: Socket) => void,
  log: IngestLog,
): Promise<Listening> {
  const server = createServer({ noDelay: true }, (socket) => {
    if (arrive(socket)) speak(socket);
    else socket.destroy();
  });
  await listen(server, at, plainNames);
  server.on('error', (error) => log.error({ err: error }, 'a connection could not be taken'));
  return { url: `mqtt://${hostInUrl(at.host)}:${portOf(server)}`, stop: () => server.close() };
}

export interface TlsCallers {
  /** Says whether a raw connection may stay, before anything is read from it. */
  arrive(socket: Socket): boolean;
  /** Gets the one under TLS once it can speak MQTT. */
  speak(socket: TLSSocket, raw: Socket | undefined): void;
  /** The two did not agree on TLS; the connection ends after this. */
  disagreed(socket: Socket, reason: TlsProblem): void;
}

export type TlsProblem = 'plain-at-tls-port' | 'certificate-refused' | 'no-mqtt';

export async function listenTls(
  at: TlsListenAt,
  { arrive, speak, disagreed }: TlsCallers,
  log: IngestLog,
): Promise<Listening> {
  const raws = new Map<string, Socket>();
  const server = createTlsServer({
    ...readFiles(at),
    minVersion: 'TLSv1.2',
    handshakeTimeout: handshakeMs,
    noDelay: true,
  });
  server.on('connection', (raw: Socket) => {
    if (!arrive(raw)) return void raw.destroy();
    const name = endsOf(raw);
    raws.set(name, raw);
    raw.once('close', () => raws.delete(name));
  });
  server.on('secureConnection', (socket) => speak(socket, raws.get(endsOf(socket))));
  server.on('tlsClientError', (error, socket) => {
    log.warn({ err: error, address: socket.remoteAddress }, 'a probe could not agree on TLS');
    const reason = tlsProblemOf(error);
    if (reason !== undefined) disagreed(socket, reason);
    socket.destroy();
  });
  await listen(server, at, tlsNames);
  server.on('error', (error) => log.error({ err: error }, 'a connection could not be taken'));
  const again = followFiles(server, at, log);
  return {
    url: `mqtts://${hostInUrl(at.host)}:${portOf(server)}`,
    stop() {
      clearInterval(again);
      server.close();
    },
  };
}

/** What OpenSSL calls it, as Node passes it on. */
function tlsProblemOf({ code = '' }: NodeJS.ErrnoException): TlsProblem | undefined {
  if (code === 'ERR_SSL_HTTP_REQUEST') return 'no-mqtt';
  if (code === 'ERR_SSL_WRONG_VERSION_NUMBER') return 'plain-at-tls-port';
  // The other side says that it does not know, or does not accept, who signed it (RFC 8446 section 6.2).
  return /ALERT_(UNKNOWN_CA|BAD_CERTIFICATE|CERTIFICATE_UNKNOWN)$/.test(code) ? 'certificate-refused' : undefined;
}

/** Two connections never have both ends in common. */
function endsOf({ remoteAddress, remotePort, localPort }: Socket): string {
  return `${remoteAddress} ${remotePort} ${localPort}`;
}

function readFiles({ certFile, keyFile }: TlsListenAt): { cert: Buffer; key: Buffer } {
  return { cert: read('BRANHEARTH_MQTT_TLS_CERT', certFile), key: read('BRANHEARTH_MQTT_TLS_KEY', keyFile) };
}

function read(name: string, file: string): Buffer {
  try {
    return readFileSync(file);
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new ConfigError(
      `${name} must be a file in PEM form that can be read; it was ${JSON.stringify(file)} (${why})`,
      {
        cause,
      },
    );
  }
}

/** Certificates are renewed every few weeks, and nobody should have to think of a restart then. */
function followFiles(server: TlsServer, at: TlsListenAt, log: IngestLog): NodeJS.Timeout {
  const stamp = () => [at.certFile, at.keyFile].map((file) => statSync(file).mtimeMs).join(' ');
  let seen = stamp();
  return setInterval(() => {
    try {
      const now = stamp();
      if (now === seen) return;
      server.setSecureContext({ ...readFiles(at), minVersion: 'TLSv1.2' });
      seen = now;
      log.info({ file: at.certFile }, 'took the renewed certificate');
    } catch (error) {
      log.error({ err: error }, 'the renewed certificate cannot be used; the one before stays in use');
    }
  }, checkFilesEveryMs).unref();
}

type SettingNames = typeof plainNames;

async function listen(server: Server, { port, host }: ListenAt, names: SettingNames): Promise<void> {
  const otherwise = 'BRANHEARTH_MQTT_URL to use the broker that listens there';
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause: NodeJS.ErrnoException) =>
      reject(listenProblem(cause, { port, host, use: 'the embedded broker', names, otherwise })),
    );
    server.listen(port, host, resolve);
  });
  server.removeAllListeners('error');
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

function hostInUrl(host: string): string {
  return host.includes(':') ? `[${host}]` : host;
}
