/** A line to an HTTP server that can be slow, busy, failing, or lose the answer. */
import { createServer, type IncomingMessage, request, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/**
 * What happens to every request; `lost` is when the server has done it and nobody hears of it. What comes while it is
 * `frozen` goes on its way afterwards, whether anybody still waits for the answer or not.
 */
export type LineState = 'open' | 'slow' | 'busy' | 'failing' | 'lost' | 'down' | 'frozen';

export interface FaultyLine {
  readonly url: string;
  /** Requests that came in since the state was set. */
  requests(): number;
  set(state: LineState): void;
  close(): Promise<void>;
}

const slowMs = 400;

export async function openFaultyLine(serverUrl: string): Promise<FaultyLine> {
  const { hostname, port } = new URL(serverUrl);
  let state: LineState = 'open';
  let requests = 0;
  const frozen: (() => void)[] = [];

  function pass(incoming: IncomingMessage, outgoing: ServerResponse, isLost: boolean): void {
    const { url, method, headers } = incoming;
    const upstream = request({ hostname, port, path: url, method, headers }, (answer) => {
      if (isLost) {
        answer.resume().on('end', () => outgoing.destroy());
        return;
      }
      outgoing.writeHead(answer.statusCode ?? 200, answer.headers);
      answer.pipe(outgoing);
    });
    upstream.on('error', () => outgoing.destroy());
    outgoing.on('close', () => upstream.destroy());
    incoming.pipe(upstream);
  }

  /** Its body is taken in whole before it is held up. */
  async function hold(incoming: IncomingMessage, outgoing: ServerResponse): Promise<void> {
    const chunks: Buffer[] = [];
    for await (const chunk of incoming) chunks.push(chunk as Buffer);
    await new Promise<void>((resolve) => (state === 'frozen' ? void frozen.push(resolve) : resolve()));
    const { url, method, headers } = incoming;
    const upstream = request({ hostname, port, path: url, method, headers }, (answer) => {
      if (outgoing.destroyed) return void answer.resume();
      outgoing.writeHead(answer.statusCode ?? 200, answer.headers);
      answer.pipe(outgoing);
    });
    upstream.on('error', () => outgoing.destroy());
    upstream.end(Buffer.concat(chunks));
  }

  const server = createServer((incoming, outgoing) => {
    requests += 1;
    if (state === 'down') outgoing.destroy();
    else if (state === 'frozen') hold(incoming, outgoing).catch(() => outgoing.destroy());
    else if (state === 'busy') refuse(incoming, outgoing, 429, { 'retry-after': '1' });
    else if (state === 'failing') refuse(incoming, outgoing, 500, {});
    else if (state === 'slow') setTimeout(() => pass(incoming, outgoing, false), slowMs);
    else pass(incoming, outgoing, state === 'lost');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    requests: () => requests,
    set(next) {
      state = next;
      requests = 0;
      if (next !== 'frozen') for (const goOn of frozen.splice(0)) goOn();
    },
    async close() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

function refuse(
  incoming: IncomingMessage,
  outgoing: ServerResponse,
  status: number,
  headers: Record<string, string>,
): void {
  incoming.resume().on('end', () => {
    outgoing.writeHead(status, { 'content-type': 'application/json', ...headers }).end('{"error":"on purpose"}');
  });
}
