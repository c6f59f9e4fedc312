/** How messages on foreign topics become readings; tried before they are saved. */
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { Ingest } from '../../../ingest/ingest.ts';
import { mappingProblem } from '../../../ingest/mapping/mapping-problem.ts';
import {
  type MappingInput,
  mappingInputSchema,
  mappingSchema,
  mappingsAnswerSchema,
  mappingTrialSchema,
} from '../../../shared/contracts/mappings.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound, refuseField } from '../problem.ts';

/** What the schema cannot see: a filter against MQTT 5 section 4.7, a pointer against RFC 6901. */
function refused(reply: FastifyReply, mapping: MappingInput) {
  const problem = mappingProblem(mapping);
  if (!problem) return undefined;
  return refuseField(reply, 422, problem);
}

const paramsSchema = z.object({ id: z.string().min(1).max(64) });

interface MappingsParts {
  readonly journal: Journal;
  readonly ingest: Ingest;
}

export function registerMappings(api: Api, { journal, ingest }: MappingsParts): void {
  const apply = async () => {
    const mappings = await journal.mappings.list();
    await ingest.setMappings(mappings);
    return mappings;
  };

  api.get(
    '/api/mappings',
    { config: { access: 'viewer' }, schema: { response: { 200: mappingsAnswerSchema } } },
    async () => ({
      mappings: await journal.mappings.list(),
    }),
  );

  api.post(
    '/api/mappings/try',
    {
      config: { access: 'owner', does: false },
      schema: { body: mappingInputSchema, response: { 200: mappingTrialSchema } },
    },
    async (request, reply) => refused(reply, request.body) ?? ingest.tryMapping(request.body),
  );

  api.post(
    '/api/mappings',
    {
      config: { access: 'owner', does: 'audit.did.mapped-foreign-topic' },
      schema: { body: mappingInputSchema, response: { 201: mappingSchema } },
    },
    async (request, reply) => {
      const problem = refused(reply, request.body);
      if (problem) return problem;
      const mapping = { ...request.body, id: randomId() };
      await journal.mappings.add(mapping);
      await apply();
      return reply.code(201).send(mapping);
    },
  );

  api.put(
    '/api/mappings/:id',
    {
      config: { access: 'owner', does: 'audit.did.changed-mapping-of-foreign-topic' },
      schema: { params: paramsSchema, body: mappingInputSchema, response: { 200: mappingSchema } },
    },
    async (request, reply) => {
      const problem = refused(reply, request.body);
      if (problem) return problem;
      const { id } = request.params;
      audit(request, { before: (await journal.mappings.list()).find((one) => one.id === id) });
      const mapping = { ...request.body, id };
      if (!(await journal.mappings.replace(mapping))) return notFound(reply, 'mapping', id);
      await apply();
      return mapping;
    },
  );

  api.delete(
    '/api/mappings/:id',
    {
      config: { access: 'owner', does: 'audit.did.removed-mapping-of-foreign-topic' },
      schema: { params: paramsSchema, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      audit(request, { before: (await journal.mappings.list()).find(({ id }) => id === request.params.id) });
      if (!(await journal.mappings.remove(request.params.id))) return notFound(reply, 'mapping', request.params.id);
      await apply();
      return reply.code(204).send();
    },
  );
}
