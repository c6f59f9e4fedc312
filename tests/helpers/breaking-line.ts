/** A line to the server that can be down, and that can break while entries are sent. */
import { createServer, type IncomingMessage, request, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** Before the server hears of it; after it has kept everything, the answer lost; in the middle of the answer. */
type Break = 'before' | 'answer-lost' | 'answer-cut';

export interface BreakingLine {
  readonly url: string;
  /** Breaks for the next packets, first one first; each is used once. */
  readonly breaks: Break[];
  /** How many packets of entries reached this line. */
  packets(): number;
  setDown(down: boolean): void;
  close(): Promise<void>;
}

export async function openBreakingLine(installationUrl: string): Promise<BreakingLine> {
  const breaks: Break[] = [];
  let down = false;
  let packets = 0;
  const { hostname, port } = new URL(installationUrl);

  function pass(incoming: IncomingMessage, outgoing: ServerResponse, broken: Break | undefined): void {
    const { url, method, headers } = incoming;
    const upstream = request({ hostname, port, path: url, method, headers }, (answer) => {
      if (broken === 'answer-lost') {
        answer.resume().on('end', () => outgoing.destroy());
        return;
      }
      if (broken === 'answer-cut') {
        outgoing.writeHead(answer.statusCode ?? 200, answer.headers);
        answer.once('data', (chunk: Buffer) => {
          outgoing.write(chunk.subarray(0, chunk.length >> 1), () => outgoing.destroy());
        });
        return;
      }
      outgoing.writeHead(answer.statusCode ?? 200, answer.headers);
      answer.pipe(outgoing);
    });
    upstream.on('error', () => outgoing.destroy());
    outgoing.on('close', () => broken === undefined && upstream.destroy());
    incoming.pipe(upstream);
  }

  const server = createServer((incoming, outgoing) => {
    if (down) return void outgoing.destroy();
    if (incoming.method !== 'POST' || incoming.url !== '/api/entries') return pass(incoming, outgoing, undefined);
    packets += 1;
    const broken = breaks.shift();
    if (broken === 'before') return void outgoing.destroy();
    pass(incoming, outgoing, broken);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    breaks,
    packets: () => packets,
    setDown(isDown) {
      down = isDown;
      if (isDown) server.closeAllConnections();
    },
    async close() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
