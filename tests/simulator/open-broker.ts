/** A broker in this process that remembers what was published to it. */
import { createServer } from 'node:net';
import { Aedes } from 'aedes';

interface Heard {
  readonly topic: string;
  readonly payload: string;
  readonly qos: number;
  readonly retain: boolean;
  readonly atMs: number;
}

export interface OpenBroker {
  readonly url: string;
  readonly heard: readonly Heard[];
  readonly broker: Aedes;
  /** Cuts every connection without a farewell. */
  cut(): void;
  close(): Promise<void>;
}

export async function openBroker(): Promise<OpenBroker> {
  const broker = await Aedes.createBroker();
  const server = createServer(broker.handle);
  const sockets = new Set<{ destroy(): void }>();
  server.on('connection', (socket) => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const heard: Heard[] = [];
  broker.on('publish', ({ topic, payload, qos, retain }) => {
    if (!topic.startsWith('$SYS')) heard.push({ topic, payload: payload.toString(), qos, retain, atMs: Date.now() });
  });
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  const cut = () => {
    for (const socket of sockets) socket.destroy();
  };
  return {
    url: `mqtt://127.0.0.1:${address.port}`,
    heard,
    broker,
    cut,
    async close() {
      cut();
      await new Promise<void>((resolve) => broker.close(() => resolve()));
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
