/**
 * server/app.ts: the Fastify application: guards, routes, pages. It never listens; main.ts does.
 *
 * Takes:  the house, and the folder of the built pages.
 * Gives:  an application ready to listen or to be injected into.
 */
import compress from '@fastify/compress';
import helmet from '@fastify/helmet';
import swagger from '@fastify/swagger';
import Fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import type { House } from './house.ts';
import { fileAnswer } from './http/file-answer.ts';
import { type PeopleKnown, registerGuard } from './http/guard.ts';
import { registerPages } from './http/pages.ts';
import { registerProblems } from './http/problem.ts';
import { describeRoute, registerRouteAccess } from './http/route-access.ts';
import { BatchLife } from './lineage/batch-life.ts';
import { peopleKnown } from './people/people-known.ts';
import { registerActs } from './routes/acts.ts';
import { registerAlarms } from './routes/alarms.ts';
import { registerBatches } from './routes/batches.ts';
import { registerCalendar } from './routes/calendar.ts';
import { registerEntries } from './routes/entries.ts';
import { registerExports } from './routes/exports.ts';
import { registerHealth } from './routes/health.ts';
import { registerImport } from './routes/import.ts';
import { registerIngest } from './routes/ingest.ts';
import { registerKeys } from './routes/keys.ts';
import { registerLabels } from './routes/labels.ts';
import { registerLive } from './routes/live.ts';
import { registerLots } from './routes/lots.ts';
import { registerMappings } from './routes/mappings.ts';
import { registerMetrics } from './routes/metrics.ts';
import { registerPhotos } from './routes/photos.ts';
import { registerPiles } from './routes/piles.ts';
import { registerPlan } from './routes/plan.ts';
import { registerProbes } from './routes/probes.ts';
import { registerRecords } from './routes/records.ts';
import { registerSeasons } from './routes/seasons.ts';
import { registerSeries } from './routes/series.ts';
import { registerSites } from './routes/sites.ts';
import { registerTold } from './routes/told.ts';

export interface AppOptions {
  /** Folder of the built pages; without it only the API answers. */
  readonly pagesDir?: string;
  /** A worker without pages answers how it is, and nothing else. */
  readonly only?: 'ingest';
  /** Who is known, when not by what the house keeps. */
  readonly people?: PeopleKnown;
}

export async function buildApp(house: House, options: AppOptions = {}): Promise<FastifyInstance> {
  const app = Fastify({
    loggerInstance: house.log,
    bodyLimit: 1_000_000,
    routerOptions: { maxParamLength: 200 },
    forceCloseConnections: true,
  });
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  registerProblems(app);
  const { refuseUnguarded } = registerRouteAccess(app);

  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        scriptSrc: ["'self'"],
        // Charts set sizes on their canvas through style attributes.
        styleSrc: ["'self'", "'unsafe-inline'"],
        // Photos are fetched with the token and shown from memory.
        imgSrc: ["'self'", 'data:', 'blob:'],
        connectSrc: ["'self'"],
        workerSrc: ["'self'"],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    // Served over plain HTTP on loopback by default; whoever puts TLS before it sets this there.
    strictTransportSecurity: false,
    referrerPolicy: { policy: 'no-referrer' },
  });
  // After the protecting headers, so that a refusal carries them too.
  registerGuard(app, options.people ?? peopleKnown(house.config.API_TOKEN));
  await app.register(compress, { encodings: ['br', 'gzip'], threshold: 4096, brotliOptions: { params: { 1: 4 } } });
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: { title: 'Branhearth', version: house.version, description: 'Piles, probes, readings and alarms.' },
      components: { securitySchemes: { token: { type: 'http', scheme: 'bearer' } } },
    },
    transform: describeRoute,
  });

  const api = app.withTypeProvider<ZodTypeProvider>();
  registerHealth(api, house);
  if (options.only === 'ingest') {
    registerMetrics(api, house);
    await registerPages(app, undefined);
    return app;
  }
  registerSites(api, house);
  registerPiles(api, house);
  registerSeries(api, house);
  registerSeasons(api, house);
  registerActs(api, house);
  registerEntries(api, house);
  registerPhotos(api, house);
  const life = new BatchLife(house);
  registerBatches(api, house, life);
  registerLots(api, house, life);
  registerRecords(api, house);
  registerExports(api, house);
  registerCalendar(api, house);
  registerLabels(api, house);
  registerImport(api, house);
  registerAlarms(api, house);
  await registerTold(api, house);
  registerProbes(api, house);
  registerPlan(api);
  registerIngest(api, house);
  registerMappings(api, house);
  registerKeys(api, house);
  registerLive(api, house.hub, house.clock);
  registerMetrics(api, house);
  api.get(
    '/api/openapi.json',
    { config: { access: 'viewer' }, schema: { response: fileAnswer('This description.', 'application/json') } },
    async () => app.swagger(),
  );
  await registerPages(app, options.pagesDir);
  refuseUnguarded();
  return app;
}
