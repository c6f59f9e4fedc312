// A soak once stood still: a server held up for longer than the keep-alive time parts from its publishers, and these then
// sent what had piled up one reading at a time, nothing new beside it, and could never be stopped.
import { connect, createServer, type Socket } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import { fastClock } from '../../../shared/clock.ts';
import { until } from '../../helpers/until.ts';
import { openIngest } from '../../ingest/open-ingest.ts';
import { startPacedPublisher } from './paced-publisher.ts';
import { scaleProbes } from './scale-farm.ts';

const closing: (() => Promise<unknown> | undefined)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

/** 400 probes make 4,000 readings a second. */
const clock = fastClock({ startMs: Date.now(), anchorMs: Date.now(), speed: 600 });

/** A server, and a line to it that can be cut. */
async function openLine() {
  const opened = await openIngest({ kind: 'embedded', port: 0, host: '127.0.0.1' }, { clock });
  closing.push(() => opened.ingest.close());
  const serverAt = Number(new URL(opened.ingest.url).port);
  const lines = new Set<Socket>();
  const server = createServer((near) => {
    const far = connect(serverAt, '127.0.0.1');
    for (const socket of [near, far]) {
      lines.add(socket);
      socket.on('error', () => {}).on('close', () => lines.delete(socket));
    }
    near.pipe(far).pipe(near);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const cut = () => {
    for (const socket of lines) socket.destroy();
  };
  closing.push(async () => {
    server.close();
    cut();
  });
  const port = typeof address === 'object' ? address?.port : undefined;
  return { ...opened, url: `mqtt://127.0.0.1:${port}`, cut };
}

async function startOn(url: string) {
  const publisher = await startPacedPublisher(url, scaleProbes(400), () => {}, clock);
  closing.push(() => publisher.stop(0));
  return publisher;
}

describe('startPacedPublisher()', () => {
  test('has every reading acknowledged although the line broke while thousands waited, and goes on', async () => {
    const { url, store, cut } = await openLine();
    const publisher = await startOn(url);
    await until('readings that were taken', () => publisher.counts().acked > 100 || undefined);
    store.hold();
    await until('many that wait', () => publisher.counts().sent - publisher.counts().acked > 4_000 || undefined);
    cut();
    store.letGo();
    const { sent } = publisher.counts();
    await until('all that waited, and new ones', () => publisher.counts().acked > sent + 1_000 || undefined);
    await publisher.stop();
    const counts = publisher.counts();
    expect(counts).toMatchObject({ acked: counts.sent, breaks: 8 });
    expect(store.kept.size).toBe(counts.sent);
  });

  test('stop() comes to an end with a server that acknowledges nothing, and says what it left', async () => {
    const { url, store } = await openLine();
    const publisher = await startOn(url);
    store.hold();
    await until('some that wait', () => publisher.counts().sent - publisher.counts().acked > 400 || undefined);
    await publisher.stop(200);
    expect(publisher.counts().sent - publisher.counts().acked).toBeGreaterThan(400);
    store.letGo();
  });

  test('stop() comes to an end when the server is gone', async () => {
    const { url, ingest, store } = await openLine();
    const publisher = await startOn(url);
    store.hold();
    await until('some that wait', () => publisher.counts().sent - publisher.counts().acked > 400 || undefined);
    const closed = ingest.close();
    await publisher.stop(200);
    store.letGo();
    await closed;
  });
});
