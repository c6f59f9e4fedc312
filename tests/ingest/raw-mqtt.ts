/** MQTT 3.1.1 packets as bytes, also those that no library would send. */

/** A length as MQTT writes it (section 2.2.3), also where it does not fit what follows. */
export function lengthBytes(length: number): number[] {
  const bytes: number[] = [];
  let rest = length;
  do {
    bytes.push((rest % 128) | (rest > 127 ? 0x80 : 0));
    rest = Math.floor(rest / 128);
  } while (rest > 0);
  return bytes;
}

export function packet(first: number, ...body: Uint8Array[]): Buffer {
  const whole = Buffer.concat(body);
  return Buffer.concat([Buffer.from([first, ...lengthBytes(whole.length)]), whole]);
}

export function text(value: string | Uint8Array): Buffer {
  const bytes = Buffer.from(value as string);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(bytes.length);
  return Buffer.concat([length, bytes]);
}

export interface Hello {
  readonly username?: string;
  readonly password?: string;
  readonly keepAliveS?: number;
}

/** CONNECT with a clean session. */
export function hello(clientId: string, { username, password, keepAliveS = 60 }: Hello = {}): Buffer {
  const flags = 2 | (username === undefined ? 0 : 0x80) | (password === undefined ? 0 : 0x40);
  const credentials = [username, password].flatMap((value) => (value === undefined ? [] : [text(value)]));
  return packet(
    0x10,
    text('MQTT'),
    Buffer.from([4, flags, keepAliveS >> 8, keepAliveS & 0xff]),
    text(clientId),
    ...credentials,
  );
}

/** @param id Packet identifier; belongs to QoS 1 and 2. */
export function publish(
  topic: string | Uint8Array,
  payload: string | Uint8Array,
  flags = 0x30,
  id: number[] = [],
): Buffer {
  return packet(flags, text(topic), Buffer.from(id), Buffer.from(payload as string));
}

export const twoBytes = (value: number): Buffer => Buffer.from([value >> 8, value & 0xff]);

export function subscribe(id: number, filters: readonly string[]): Buffer {
  return packet(0x82, twoBytes(id), ...filters.flatMap((filter) => [text(filter), Buffer.from([0])]));
}

export function unsubscribe(id: number, filters: readonly string[]): Buffer {
  return packet(0xa2, twoBytes(id), ...filters.map(text));
}
