/** The record of a batch on paper, drawn beside the main thread. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import type { Reader } from '../../../../shared/messages/format.ts';
import { recordPdf } from './record-pdf.ts';

export interface RecordQuestion {
  readonly record: BatchRecordSheet;
  readonly reader: Reader;
  /** Small JPEGs by photo id. */
  readonly pictures: ReadonlyMap<string, Uint8Array>;
}

export async function* run({ record, reader, pictures }: RecordQuestion): AsyncGenerator<Uint8Array> {
  const asBuffers = [...pictures].map(
    ([id, { buffer, byteOffset, byteLength }]) => [id, Buffer.from(buffer, byteOffset, byteLength)] as const,
  );
  yield await recordPdf(record, reader, new Map(asBuffers));
}
