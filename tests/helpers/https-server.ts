/** A receiver with TLS on loopback, whose certificate a test can trust, and which keeps what it got. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import type { IncomingHttpHeaders, IncomingMessage, RequestListener, ServerResponse } from 'node:http';
import { createServer } from 'node:https';
import type { AddressInfo, Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Certificate {
  readonly key: string;
  readonly cert: string;
}

/** Self-signed, for the names given. */
export function makeCertificate(...names: readonly string[]): Certificate {
  const folder = mkdtempSync(join(tmpdir(), 'branhearth-cert-'));
  const [key, cert] = [join(folder, 'key.pem'), join(folder, 'cert.pem')];
  const subjects = names.map((name) => (/^[\d.]+$/.test(name) ? `IP:${name}` : `DNS:${name}`)).join(',');
  try {
    execFileSync(
      'openssl',
      [
        'req',
        '-x509',
        '-newkey',
        'ec',
        '-pkeyopt',
        'ec_paramgen_curve:prime256v1',
        '-nodes',
        '-days',
        '2',
        '-keyout',
        key,
        '-out',
        cert,
        '-subj',
        '/CN=test',
        '-addext',
        `subjectAltName=${subjects}`,
      ],
      { stdio: 'ignore' },
    );
    return { key: readFileSync(key, 'utf8'), cert: readFileSync(cert, 'utf8') };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export interface GotRequest {
  readonly method: string;
  readonly path: string;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

export interface Receiver {
  readonly port: number;
  readonly got: GotRequest[];
  /** How it answers from now on; 201 when unset. `undefined` from it leaves the caller hanging. */
  answer: (request: GotRequest, response: ServerResponse) => void;
  close(): Promise<void>;
}

export async function startReceiver(certificate: Certificate): Promise<Receiver> {
  const sockets = new Set<Socket>();
  const listen: RequestListener = (request, response) => void take(request, response);
  const server = createServer({ key: certificate.key, cert: certificate.cert }, listen);
  server.on('connection', (socket: Socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.once('close', () => sockets.delete(socket));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));

  async function take(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    const { method = '', url = '', headers } = request;
    const got = { method, path: url, headers, body: Buffer.concat(chunks) };
    receiver.got.push(got);
    receiver.answer(got, response);
  }

  const receiver: Receiver = {
    port: (server.address() as AddressInfo).port,
    got: [],
    answer: (_got, response) => void response.writeHead(201).end(),
    async close() {
      for (const socket of sockets) socket.destroy();
      await new Promise((resolve) => server.close(resolve));
    },
  };
  return receiver;
}
