/**
 * Publishes readings at QoS 1 as fast as a broker takes them, in a process of its own; its argument is JSON. Without an MQTT
 * library: encoding must not cost the machine what is to be measured.
 */
import { connect, type Socket } from 'node:net';

export interface PublisherTask {
  readonly port: number;
  readonly messages: number;
  readonly connections: number;
  readonly probes: number;
  readonly startMs: number;
}

/** 120 bytes, two readings. */
export function payloadOf(atMs: number, serial: number): string {
  const tempC = (35 + (serial % 2000) / 100).toFixed(2);
  const humidityPct = (90 + (serial % 90) / 10).toFixed(1);
  const text = `{"time":${atMs},"temperature":${tempC},"humidity":${humidityPct},"unit":"C","id":"saltmere","fw":"1.0","seq":"`;
  return `${text}${String(serial).padStart(118 - text.length, '0')}"}`;
}

/** Unacknowledged messages per connection; packet identifiers allow 65,535. */
const window = 4_000;
const perWrite = 250;

async function publish(task: PublisherTask): Promise<void> {
  const sockets = await Promise.all(Array.from({ length: task.connections }, (_, index) => open(task.port, index)));
  process.send?.('go');
  const share = task.messages / task.connections;
  await Promise.all(sockets.map((socket, index) => publishShare(socket, task, index, share)));
  for (const socket of sockets) socket.end(Buffer.from([0xe0, 0]));
  process.send?.('done');
}

function open(port: number, index: number): Promise<Socket> {
  const id = Buffer.from(`bench-publisher-${index}`);
  const variable = Buffer.from([0, 4, 0x4d, 0x51, 0x54, 0x54, 4, 2, 0, 0, 0, id.length]); // MQTT 3.1.1, clean session
  return new Promise((resolve, reject) => {
    const socket = connect({ port, host: '127.0.0.1', noDelay: true });
    socket.once('error', reject);
    socket.write(Buffer.concat([Buffer.from([0x10, variable.length + id.length]), variable, id]));
    socket.once('data', () => resolve(socket)); // CONNACK
  });
}

/** Each connection speaks for probes of its own, each probe in the order of time, as probes do. */
function publishShare(socket: Socket, task: PublisherTask, connection: number, messages: number): Promise<void> {
  let sent = 0;
  let ackBytes = 0;
  return new Promise((resolve) => {
    const fill = () => {
      while (sent < messages && sent - ackBytes / 4 < window - perWrite) {
        const packets: Buffer[] = [];
        for (const upTo = Math.min(messages, sent + perWrite); sent < upTo; sent += 1) {
          packets.push(packetOf(task, connection, sent));
        }
        socket.write(Buffer.concat(packets));
      }
    };
    socket.on('data', (chunk) => {
      ackBytes += chunk.length; // nothing but PUBACKs of 4 bytes comes here
      if (ackBytes === 4 * messages) resolve();
      else fill();
    });
    fill();
  });
}

function packetOf(task: PublisherTask, connection: number, serial: number): Buffer {
  const probesHere = task.probes / task.connections;
  const probe = connection * probesHere + (serial % probesHere);
  const topic = `piles/saltmere-${probe % 8}/p${probe}/reading`;
  const payload = payloadOf(task.startMs + Math.floor(serial / probesHere) * 1_000, serial);
  const length = 2 + topic.length + 2 + payload.length;
  const packet = Buffer.allocUnsafe((length < 128 ? 2 : 3) + length);
  let at = packet.writeUInt8(0x32, 0); // PUBLISH, QoS 1
  if (length < 128) at = packet.writeUInt8(length, at);
  else at = packet.writeUInt8(length >> 7, packet.writeUInt8((length & 0x7f) | 0x80, at));
  at = packet.writeUInt16BE(topic.length, at);
  at += packet.write(topic, at, 'latin1');
  at = packet.writeUInt16BE((serial % 65_535) + 1, at);
  packet.write(payload, at, 'latin1');
  return packet;
}

if (process.send !== undefined && process.argv[2] !== undefined) {
  await publish(JSON.parse(process.argv[2]) as PublisherTask);
  process.disconnect();
}
