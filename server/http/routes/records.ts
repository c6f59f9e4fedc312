/** The record of a batch as JSON and as PDF, and whether it may be ready. */
import { historyAt } from '../../../core/records/heat-history.ts';
import { readinessSchema } from '../../../shared/contracts/readiness.ts';
import { batchRecordSchema } from '../../../shared/contracts/records.ts';
import { metric } from '../../../shared/messages/format.ts';
import type { Beside } from '../../beside/job.ts';
import { oneAnswer } from '../../beside/job.ts';
import { WorkLine } from '../../beside/work-line.ts';
import { idFromName } from '../../id-from-name.ts';
import type { PhotoStore } from '../../services/photos/photo-store.ts';
import { batchHeatHistory } from '../../services/records/batch-heat-history.ts';
import { batchRecord, entriesOf, type RecordParts } from '../../services/records/batch-record.ts';
import { batchSources } from '../../services/records/batch-sources.ts';
import { tenMinuteHistory } from '../../services/records/batch-temperatures.ts';
import { recordJob } from '../../services/records/pdf/record-job.ts';
import { readinessView } from '../../services/records/readiness-view.ts';
import type { Api } from '../api.ts';
import { attachment } from '../attachment.ts';
import { fileAnswer } from '../file-answer.ts';
import { notFound } from '../problem.ts';
import { readerOf } from '../reader-of.ts';
import { whileWaitedFor } from '../waited-for.ts';
import { pileParams } from './piles.ts';

interface RecordsParts extends RecordParts {
  readonly photos: PhotoStore;
  readonly beside: Beside;
}

export function registerRecords(api: Api, parts: RecordsParts): void {
  const { journal, readings, photos, clock, beside } = parts;
  const line = new WorkLine({ atOnce: 1, mostOfOne: 4, mostWaiting: 40 });

  api.get(
    '/api/batches/:id/readiness',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: readinessSchema } } },
    async (request, reply) => {
      const batch = (await journal.batches.list()).find(({ id }) => id === request.params.id);
      const pile = batch && (await journal.piles.get(batch.pileId));
      if (!batch || !pile) return notFound(reply, 'batch', request.params.id);
      const range = { fromMs: batch.startedAtMs, toMs: batch.endedAtMs ?? clock.nowMs() };
      const sources = await batchSources(journal, { pileId: pile.id, siteId: pile.siteId, ...range });
      const entries = await entriesOf(journal, batch);
      const history = batchHeatHistory(batch, entries);
      await tenMinuteHistory(readings, sources, range, history);
      return readinessView(readings, batch, sources, entries, range.toMs, historyAt(history, range.toMs));
    },
  );

  api.get(
    '/api/batches/:id/record',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: batchRecordSchema } } },
    async (request, reply) =>
      (await batchRecord(parts, request.params.id)) ?? notFound(reply, 'batch', request.params.id),
  );

  api.get(
    '/api/batches/:id/record.pdf',
    {
      config: { access: 'viewer' },
      schema: { params: pileParams, response: fileAnswer('The record on paper.', 'application/pdf') },
    },
    async (request, reply) => {
      const signal = whileWaitedFor(reply);
      return line.run(request.person?.id ?? '', async () => {
        const record = await batchRecord(parts, request.params.id);
        if (!record) return notFound(reply, 'batch', request.params.id);
        const pictures = new Map<string, Uint8Array>();
        for (const id of record.entries.flatMap(({ photoIds }) => photoIds).slice(0, 50)) {
          const photo = await journal.photos.get(id);
          const picture = photo && (await photos.read(photo.digest, 'small'));
          if (picture) pictures.set(id, picture);
        }
        const reader = { ...readerOf(request, clock.nowMs()), units: metric };
        const pdf = await oneAnswer(beside.run(recordJob, { record, reader, pictures }, signal));
        const name = `record-${idFromName(record.batch.name)}.pdf`;
        return reply.headers(attachment(name, 'application/pdf')).send(Buffer.from(pdf));
      });
    },
  );
}
