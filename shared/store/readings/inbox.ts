/**
 * How a batch of new readings is packed into one blob, and unpacked.
 *
 * One blob per batch costs a commit the same few pages whether the batch came from one probe or from a thousand; rows
 * straight into the reading table would touch a page of it for every series.
 *
 * Layout for n readings, 20 bytes each, little-endian: n times at_ms (f64), n times value (f64), n times series id
 * (u32).
 */
import { StoreError } from '../../errors.ts';

export const bytesPerReading = 20;

export interface InboxColumns {
  readonly atMs: Float64Array;
  readonly values: Float64Array;
  readonly seriesIds: Uint32Array;
}

/** Columns over one piece of memory, to be filled and then written as `packed`. */
export function newColumns(count: number): InboxColumns & { readonly packed: Buffer } {
  return over(new ArrayBuffer(count * bytesPerReading), count);
}

/** @throws {StoreError} when the blob is not whole. */
export function unpack(blob: Buffer): InboxColumns {
  const count = blob.byteLength / bytesPerReading;
  if (!Number.isInteger(count)) {
    throw new StoreError(
      `Cannot read a waiting batch as its length must be a multiple of ${bytesPerReading} bytes: current value is ${blob.byteLength}`,
    );
  }
  const memory = new ArrayBuffer(blob.byteLength); // copied, as a blob need not begin at a multiple of 8
  new Uint8Array(memory).set(blob);
  return over(memory, count);
}

function over(memory: ArrayBuffer, count: number): InboxColumns & { readonly packed: Buffer } {
  return {
    atMs: new Float64Array(memory, 0, count),
    values: new Float64Array(memory, 8 * count, count),
    seriesIds: new Uint32Array(memory, 16 * count, count),
    packed: Buffer.from(memory),
  };
}
