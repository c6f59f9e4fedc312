/**
 * What stands in the place of a payload that was too long to be kept: how long it was. Nobody outside can make one, as
 * it begins with bytes drawn anew at each start.
 */
import { randomBytes } from 'node:crypto';

const mark = randomBytes(16);

export function cutPayload(payloadBytes: number): Buffer {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(payloadBytes);
  return Buffer.concat([mark, length]);
}

/** How long the payload was [bytes]; undefined for one that came whole. */
export function cutLengthBytes(payload: Buffer): number | undefined {
  if (payload.length !== mark.length + 4 || !payload.subarray(0, mark.length).equals(mark)) return undefined;
  return payload.readUInt32BE(mark.length);
}
