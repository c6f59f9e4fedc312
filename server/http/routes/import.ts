/** Readings and entries from a file: a preview, then the same file again to keep it. */
import type { FastifyReply, FastifyRequest, FastifySchema, FastifySchemaCompiler } from 'fastify';
import { validatorCompiler } from 'fastify-type-provider-zod';
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
import { audit } from '../audit-hook.ts';
import { fewAtOnce } from '../few-at-once.ts';
import { refuseField } from '../problem.ts';
import { whileWaitedFor } from '../waited-for.ts';

/** Seldom needed: it is loaded with the first file. */
const runImport = () => import('../../services/import/run-import.ts');

/** A file of 20 MB grows when it is written as JSON: quotation marks and line ends become two characters. */
const bodyLimit = importLimits.bytes * 1.5;

/** One file is read at a time; a page may ask for a second preview before the first has come. */
const mostOfOne = 3;

/** The schema is for the description; the body is read by it in the job's thread, and is bytes until then. */
const unread: FastifySchemaCompiler<FastifySchema> = (route) =>
  route.httpPart === 'body' ? (value: unknown) => ({ value }) : validatorCompiler(route as never);

export async function registerImport(api: Api, parts: ImportParts): Promise<void> {
  await api.register(async (own: Api) => {
    own.addContentTypeParser('application/json', { parseAs: 'buffer', bodyLimit }, (_request, body, done) =>
      done(null, body),
    );
    registerRoutes(own, parts);
  });
}

function registerRoutes(api: Api, parts: ImportParts): void {
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
  const options = { bodyLimit, ...few, validatorCompiler: unread };
  const bodyOf = ({ body }: FastifyRequest) => (body instanceof Uint8Array ? body : new Uint8Array());

  api.post(
    '/api/import/preview',
    {
      ...options,
      config: { access: 'keeper', does: false },
      schema: { body: importAskSchema, response: { 200: importPreviewSchema } },
    },
    async (request, reply) =>
      orUnreadable(request, reply, async () =>
        (await runImport()).previewImport(parts, bodyOf(request), whileWaitedFor(reply)),
      ),
  );

  api.post(
    '/api/import/commit',
    {
      ...options,
      config: { access: 'keeper', does: 'audit.did.brought-in-file' },
      schema: { body: importCommitSchema, response: { 200: importDoneSchema } },
    },
    async (request, reply) =>
      orUnreadable(request, reply, async () =>
        (await runImport()).commitImport(parts, bodyOf(request), (how) => audit(request, { after: how })),
      ),
  );
}
