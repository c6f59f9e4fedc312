/**
 * server/routes/import.ts: readings and entries from a file: a preview, then the same file again to keep it.
 */
import type { FastifyReply } from 'fastify';
import {
  importAskSchema,
  importCommitSchema,
  importDoneSchema,
  importLimits,
  importPreviewSchema,
} from '../../shared/api/import.ts';
import type { House } from '../house.ts';
import type { Api } from '../http/api.ts';
import { sendProblem } from '../http/problem.ts';
import { CsvError } from '../import/csv-error.ts';

/** Seldom needed: it is loaded with the first file. */
const runImport = () => import('../import/run-import.ts');

/** A file of 20 MB grows when it is written as JSON: quotation marks and line ends become two characters. */
const bodyLimit = importLimits.bytes * 1.5;

export function registerImport(api: Api, house: House): void {
  const orUnreadable = async <T>(reply: FastifyReply, run: () => Promise<T>) => {
    try {
      return await run();
    } catch (error) {
      if (!(error instanceof CsvError)) throw error;
      return sendProblem(reply, 422, `${error.message}.`, { errors: [{ pointer: '/csv', detail: error.message }] });
    }
  };

  api.post(
    '/api/import/preview',
    {
      config: { access: 'keeper', does: false },
      bodyLimit,
      schema: { body: importAskSchema, response: { 200: importPreviewSchema } },
    },
    async (request, reply) => orUnreadable(reply, async () => (await runImport()).previewImport(house, request.body)),
  );

  api.post(
    '/api/import/commit',
    {
      config: { access: 'keeper', does: 'brought in a file' },
      bodyLimit,
      schema: { body: importCommitSchema, response: { 200: importDoneSchema } },
    },
    async (request, reply) => {
      const { commitImport, digestOf } = await runImport();
      const { digest, ...ask } = request.body;
      if (digestOf(ask) !== digest) {
        return sendProblem(reply, 409, 'This is not what the preview showed: ask for a preview of it first.', {
          errors: [{ pointer: '/digest', detail: 'must be that of the preview' }],
        });
      }
      return orUnreadable(reply, () => commitImport(house, ask));
    },
  );
}
