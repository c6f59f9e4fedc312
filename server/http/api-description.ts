import swagger from '@fastify/swagger';
import type { FastifyInstance } from 'fastify';
import type { Api } from './api.ts';
import { fileAnswer } from './file-answer.ts';
import { describeRoute } from './route-access.ts';

/** Gathers every route that is registered from now on. @param version Of the program. */
export async function gatherApiDescription(app: FastifyInstance, version: string): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: { title: 'Branhearth', version: version, description: 'Piles, probes, readings and alarms.' },
      components: {
        securitySchemes: {
          session: { type: 'apiKey', in: 'cookie', name: 'branhearth_session' },
          token: { type: 'http', scheme: 'bearer' },
        },
      },
    },
    transform: describeRoute,
  });
}

/** GET /api/openapi.json. */
export function registerApiDescription(api: Api): void {
  api.get(
    '/api/openapi.json',
    { config: { access: 'viewer' }, schema: { response: fileAnswer('This description.', 'application/json') } },
    async () => api.swagger(),
  );
}
