// A replay whose broker had gone for good could not be stopped: it waited for room on a line that took nothing more.
import { createServer } from 'node:net';
import { Aedes } from 'aedes';
import { expect, test } from 'vitest';
import type { FarmMessage } from '../../../simulator/farm/play-farm.ts';
import { mqttSink } from '../../../simulator/publish/mqtt-sink.ts';
import { paceOut } from '../../../simulator/publish/pace.ts';

test('paceOut() and mqttSink() let go when they are stopped after their broker has gone', async () => {
  const broker = await Aedes.createBroker();
  const server = createServer(broker.handle);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  const principal = { site: 'saltmere-yard', probe: 'p1' };
  const sink = await mqttSink({ url: `mqtt://127.0.0.1:${port}`, principals: [principal], inFlight: 2 });
  await new Promise<void>((resolve) => {
    broker.close(() => server.close(() => resolve()));
  });

  const messages = Array.from({ length: 10 }, (_, i): FarmMessage => {
    return { kind: 'reading', ...principal, atMs: i, sendAtMs: i, values: { temperature: 20 } };
  });
  const stop = new AbortController();
  const sending = paceOut(messages, sink, { clock: { nowMs: () => 1_000, speed: 1 }, signal: stop.signal });
  setTimeout(() => stop.abort(), 100);
  expect((await sending).readings).toBeLessThan(10);
  await sink.close();
});
