/**
 * GET /api/openapi.json. What makes the description is loaded and asked when somebody first wants it: few ever do, and it would be some
 * hundred modules of every start.
 */
import Fastify, { type FastifyInstance, type RouteOptions } from 'fastify';
import type { Api } from './api.ts';
import { fileAnswer } from './file-answer.ts';
import { describeRoute } from './route-access.ts';

/** Describes every route that is registered from now on. @param version Of the program. */
export function registerApiDescription(api: Api, version: string): void {
  const routes: RouteOptions[] = [];
  api.addHook('onRoute', (route) => {
    routes.push(route);
  });
  let description: Promise<object> | undefined;
  api.get(
    '/api/openapi.json',
    { config: { access: 'viewer' }, schema: { response: fileAnswer('This description.', 'application/json') } },
    async () => {
      description ??= describe(routes, version);
      return description;
    },
  );
}

async function describe(routes: readonly RouteOptions[], version: string): Promise<object> {
  const { default: swagger } = await import('@fastify/swagger');
  // Hears of each route and answers none.
  const described: FastifyInstance = Fastify({ exposeHeadRoutes: false });
  described.setValidatorCompiler(() => () => true);
  described.setSerializerCompiler(() => String);
  await described.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: { title: 'Branhearth', version, description: 'Piles, probes, readings and alarms.' },
      components: {
        securitySchemes: {
          session: { type: 'apiKey', in: 'cookie', name: 'branhearth_session' },
          token: { type: 'http', scheme: 'bearer' },
        },
      },
    },
    transform: describeRoute,
  });
  for (const { method, url, schema = {}, config = {}, handler } of routes)
    if (method !== 'HEAD') described.route({ method, url, schema, config, handler });
  await described.ready();
  return described.swagger();
}
