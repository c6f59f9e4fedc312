/** Everything as files, written while they are sent. */
import { Readable } from 'node:stream';
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import { exportSubjectSchema, exportSubjects } from '../../../shared/contracts/records.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { allBatchSources } from '../../services/records/batch-sources.ts';
import { allSubjects, csvFile, jsonFile } from '../../services/records/export/files.ts';
import { readingColumns, readingRows } from '../../services/records/export/reading-rows.ts';
import { exportSubjectTable } from '../../services/records/export/subjects.ts';
import type { Api } from '../api.ts';
import { attachment } from '../attachment.ts';
import { fileAnswer } from '../file-answer.ts';
import { notFound } from '../problem.ts';
import { pileParams } from './piles.ts';

const csvType = 'text/csv; charset=utf-8; header=present';
const jsonType = 'application/json; charset=utf-8';

interface ExportsParts {
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly clock: Clock;
  readonly version: string;
}

export function registerExports(api: Api, { journal, readings, clock, version }: ExportsParts): void {
  api.get(
    '/api/export/all.json',
    { config: { access: 'viewer' }, schema: { response: fileAnswer('Everything.', 'application/json') } },
    async (_request, reply) => {
      const subjects = exportSubjects.map((name) => {
        const { columns, rows } = exportSubjectTable[name];
        return [name, columns, rows(journal)] as const;
      });
      const head = { program: 'branhearth', version, madeAt: toInstant(clock.nowMs()) };
      return reply.headers(attachment('branhearth.json', jsonType)).send(Readable.from(allSubjects(head, subjects)));
    },
  );

  for (const [format, type, file] of [
    ['csv', csvType, csvFile],
    ['json', jsonType, jsonFile],
  ] as const) {
    const response = fileAnswer('One row per line.', type.split(';', 1)[0] ?? type);
    api.get(
      `/api/export/:subject.${format}`,
      { config: { access: 'viewer' }, schema: { params: z.object({ subject: exportSubjectSchema }), response } },
      async (request, reply) => {
        const { subject } = request.params;
        const { columns, rows } = exportSubjectTable[subject];
        return reply
          .headers(attachment(`${subject}.${format}`, type))
          .send(Readable.from(file(columns, rows(journal))));
      },
    );

    api.get(
      `/api/batches/:id/readings.${format}`,
      { config: { access: 'viewer' }, schema: { params: pileParams, response } },
      async (request, reply) => {
        const batch = (await journal.batches.list()).find(({ id }) => id === request.params.id);
        const pile = batch && (await journal.piles.get(batch.pileId));
        if (!batch || !pile) return notFound(reply, 'batch', request.params.id);
        const range = { fromMs: batch.startedAtMs, toMs: batch.endedAtMs ?? clock.nowMs() + 1 };
        const sources = await allBatchSources(journal, { pileId: pile.id, siteId: pile.siteId, ...range });
        return reply
          .headers(attachment(`readings-${batch.id}.${format}`, type))
          .send(Readable.from(file(readingColumns, readingRows(readings, sources, range))));
      },
    );
  }
}
