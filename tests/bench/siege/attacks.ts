/**
 * What the siege throws at the built program: each attack goes on until told to stop or its count is used up, over loopback
 * only, and counts what came of it.
 */
import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { generate, type Packet } from 'mqtt-packet';
import { ago, type Besieged } from './besieged.ts';

export type Counts = Record<string, number>;
export type Attack = (installation: Besieged, goesOn: () => boolean, counts: Counts) => Promise<void>;

const count = (counts: Counts, what: string) => {
  counts[what] = (counts[what] ?? 0) + 1;
};

async function dial(url: string): Promise<Socket> {
  const { hostname, port } = new URL(url);
  const socket = connect(Number(port), hostname);
  socket.on('error', () => {}).resume();
  await Promise.race([once(socket, 'connect'), once(socket, 'close')]);
  return socket;
}

/** Writes all packets as far as the connection takes them. */
async function throwAll(installation: Besieged, packets: Iterable<Packet>, goesOn: () => boolean, counts: Counts) {
  const socket = await dial(installation.mqttUrl);
  socket.write(
    generate({
      cmd: 'connect',
      protocolId: 'MQTT',
      protocolVersion: 4,
      clean: true,
      clientId: `siege-${Math.random().toString(36).slice(2)}`,
      keepalive: 60,
      username: installation.key.id,
      password: Buffer.from(installation.key.secret),
    }),
  );
  for (const packet of packets) {
    if (socket.destroyed || !goesOn()) break;
    if (!socket.write(generate(packet)))
      await Promise.race([once(socket, 'drain'), once(socket, 'close'), pause(2_000)]);
    count(counts, 'packets');
  }
  await pause(250);
  count(counts, socket.destroyed ? 'connections ended by the broker' : 'connections left open');
  socket.destroy();
}

const filters = 60_000;
const filtersInOne = 1_000;
const mostFloods = 20;

const subscribe: Attack = async (installation, goesOn, counts) => {
  for (let flood = 0; flood < mostFloods && goesOn(); flood += 1) {
    const packets = Array.from(
      { length: filters / filtersInOne },
      (_, i): Packet => ({
        cmd: 'subscribe',
        messageId: i + 1,
        subscriptions: Array.from({ length: filtersInOne }, (_, k) => ({
          topic: `piles/yard/p1/+/x${i * filtersInOne + k}`,
          qos: 1,
        })),
      }),
    );
    await throwAll(installation, packets, goesOn, counts);
  }
};

const unreleasedBytes = 1_900_000;
const mostUnreleased = 200;

const unreleased: Attack = async (installation, goesOn, counts) => {
  const payload = Buffer.alloc(unreleasedBytes, '7');
  for (let sent = 0; sent < mostUnreleased && goesOn(); sent += 20) {
    const packets = Array.from(
      { length: 20 },
      (_, i): Packet => ({
        cmd: 'publish',
        qos: 2,
        dup: false,
        retain: false,
        messageId: i + 1,
        topic: 'piles/yard/p1/reading',
        payload,
      }),
    );
    await throwAll(installation, packets, goesOn, counts);
  }
};

/** Cells that an expression of the wrong kind would be busy with for seconds each. */
const freezing = [' '.repeat(60_000), '1'.repeat(60_000), `${' 1'.repeat(30_000)}x`, '-'.repeat(60_000)];
const rowsOfFile = 200;
const mostFiles = 200;

const imports: Attack = async ({ pagesUrl }, goesOn, counts) => {
  const rows = Array.from({ length: rowsOfFile }, (_, i) => `${ago(50 - i / 60)},${freezing[i % freezing.length]}`);
  const body = JSON.stringify({
    kind: 'readings',
    site: 'yard',
    probe: 'p1',
    csv: ['time,temperature', ...rows].join('\n'),
  });
  for (let file = 0; file < mostFiles && goesOn(); file += 1) {
    const answer = await fetch(`${pagesUrl}/api/import/preview`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
    });
    await answer.arrayBuffer();
    count(counts, `answered ${answer.status}`);
  }
};

const mostPapers = 200;

const papers: Attack = async ({ pagesUrl, batchId }, goesOn, counts) => {
  const one = async () => {
    for (let paper = 0; paper < mostPapers / 4 && goesOn(); paper += 1) {
      const answer = await fetch(`${pagesUrl}/api/batches/${batchId}/record.pdf`);
      await answer.arrayBuffer();
      count(counts, `answered ${answer.status}`);
      if (answer.status !== 200) await pause(200);
    }
  };
  await Promise.all([one(), one(), one(), one(), one(), one()]);
};

const halves = 3_000;
const mostHalves = 3_000;
const half =
  'POST /api/session HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 400\r\n\r\n{"na';

/** As many at once as are aimed at; each that is ended is sent again. */
const halfSent: Attack = async ({ pagesUrl }, goesOn, counts) => {
  const open = new Set<Socket>();
  for (let sent = 0; sent < mostHalves && goesOn(); ) {
    if (open.size >= halves) {
      await pause(50);
      continue;
    }
    const socket = await dial(pagesUrl);
    open.add(socket);
    socket.once('close', () => open.delete(socket));
    socket.write(half);
    sent += 1;
    counts.sent = sent;
    counts['most open at once'] = Math.max(counts['most open at once'] ?? 0, open.size);
  }
  while (goesOn()) await pause(100);
  for (const socket of open) socket.destroy();
};

export const attacks: Readonly<Record<string, Attack>> = { subscribe, unreleased, imports, papers, halfSent };
