/** The record of a batch on paper, drawn beside the main thread. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { recordPdf } from './record-pdf.ts';

export interface RecordQuestion {
  readonly record: BatchRecordSheet;
  /** Small JPEGs by photo id. */
  readonly pictures: ReadonlyMap<string, Uint8Array>;
}

export async function* run({ record, pictures }: RecordQuestion): AsyncGenerator<Uint8Array> {
  const asBuffers = [...pictures].map(
    ([id, { buffer, byteOffset, byteLength }]) => [id, Buffer.from(buffer, byteOffset, byteLength)] as const,
  );
  yield await recordPdf(record, new Map(asBuffers));
}
