/** Readings and entries from a file: a preview, then the same file again to keep it. */
import type { FastifyReply, FastifyRequest } from 'fastify';
import {
  importAskSchema,
  importCommitSchema,
  importDoneSchema,
  importLimits,
  importPreviewSchema,
} from '../../../shared/contracts/import.ts';
import { message } from '../../../shared/messages/message.ts';
import { WorkLine } from '../../beside/work-line.ts';
import { CsvError } from '../../services/import/csv-error.ts';
import type { ImportParts } from '../../services/import/run-import.ts';
import type { Api } from '../api.ts';
import { fewAtOnce } from '../few-at-once.ts';
import { refuseField } from '../problem.ts';
import { whileWaitedFor } from '../waited-for.ts';

/** Seldom needed: it is loaded with the first file. */
const runImport = () => import('../../services/import/run-import.ts');

/** A file of 20 MB grows when it is written as JSON: quotation marks and line ends become two characters. */
const bodyLimit = importLimits.bytes * 1.5;

/** One file is read at a time; a page may ask for a second preview before the first has come. */
const mostOfOne = 3;

export function registerImport(api: Api, parts: ImportParts): void {
  const line = new WorkLine({ atOnce: 1, mostOfOne, mostWaiting: 20 });
  const few = fewAtOnce(mostOfOne, message('problem.work.your-files'));
  const orUnreadable = async <T>(request: FastifyRequest, reply: FastifyReply, run: () => Promise<T>) => {
    try {
      return await line.run(request.person?.id ?? '', run);
    } catch (error) {
      if (!(error instanceof CsvError)) throw error;
      return refuseField(reply, 422, { pointer: '/csv', said: error.said });
    }
  };

  api.post(
    '/api/import/preview',
    {
      config: { access: 'keeper', does: false },
      bodyLimit,
      ...few,
      schema: { body: importAskSchema, response: { 200: importPreviewSchema } },
    },
    async (request, reply) =>
      orUnreadable(request, reply, async () =>
        (await runImport()).previewImport(parts, request.body, whileWaitedFor(reply)),
      ),
  );

  api.post(
    '/api/import/commit',
    {
      config: { access: 'keeper', does: 'brought in a file' },
      bodyLimit,
      ...few,
      schema: { body: importCommitSchema, response: { 200: importDoneSchema } },
    },
    async (request, reply) => {
      const { digest, ...ask } = request.body;
      return orUnreadable(request, reply, async () => (await runImport()).commitImport(parts, ask, digest));
    },
  );
}
