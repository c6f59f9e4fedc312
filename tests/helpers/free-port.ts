/**
 * A port that nothing listens on, and that stays free until it is used, and between a stop and the next start: it lies below
 * those which a system gives to every connection that goes out.
 */
import { createServer } from 'node:net';

const [lowest, highest] = [20_000, 32_000];
let next = lowest + Math.floor(Math.random() * (highest - lowest));

export async function freePort(): Promise<number> {
  for (;;) {
    const port = next;
    next = port + 1 < highest ? port + 1 : lowest;
    if (await isFree(port)) return port;
  }
}

function isFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(false));
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(true)));
  });
}
