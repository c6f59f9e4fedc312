/** The Fastify application: guards, routes, pages. It never listens; main.ts does. */
import compress from '@fastify/compress';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit, { normalizeIP } from '@fastify/rate-limit';
import swagger from '@fastify/swagger';
import Fastify, { type FastifyInstance, type FastifyServerOptions } from 'fastify';
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import { registerAudit } from '../http/audit-hook.ts';
import { boundConnections } from '../http/connections.ts';
import { fileAnswer } from '../http/file-answer.ts';
import { registerGuard } from '../http/guard.ts';
import { logSerializers } from '../http/log-serializers.ts';
import { registerPages } from '../http/pages.ts';
import { registerProblems } from '../http/problem.ts';
import { refuseNul } from '../http/refuse-nul.ts';
import { QuietRequests } from '../http/request-log.ts';
import { describeRoute, registerRouteAccess } from '../http/route-access.ts';
import { registerActs } from '../http/routes/acts.ts';
import { registerAlarmLinks } from '../http/routes/alarm-links.ts';
import { registerAlarmLinkAnswers } from '../http/routes/alarm-notifications.ts';
import { registerAlarms } from '../http/routes/alarms.ts';
import { registerAuditRoute } from '../http/routes/audit.ts';
import { registerBatches } from '../http/routes/batches.ts';
import { registerCalendar } from '../http/routes/calendar.ts';
import { registerEntries } from '../http/routes/entries.ts';
import { registerExports } from '../http/routes/exports.ts';
import { registerHealth } from '../http/routes/health.ts';
import { registerHeld } from '../http/routes/held.ts';
import { registerImport } from '../http/routes/import.ts';
import { registerIngest } from '../http/routes/ingest.ts';
import { registerKeys } from '../http/routes/keys.ts';
import { registerLabels } from '../http/routes/labels.ts';
import { registerLive } from '../http/routes/live.ts';
import { registerLots } from '../http/routes/lots.ts';
import { registerMappings } from '../http/routes/mappings.ts';
import { registerMe } from '../http/routes/me.ts';
import { registerMetrics } from '../http/routes/metrics.ts';
import { registerTelling } from '../http/routes/notifications.ts';
import { registerPeople } from '../http/routes/people.ts';
import { registerPhotos } from '../http/routes/photos.ts';
import { registerPiles } from '../http/routes/piles.ts';
import { registerPlan } from '../http/routes/plan.ts';
import { registerProbes } from '../http/routes/probes.ts';
import { registerRecords } from '../http/routes/records.ts';
import { registerKeeping } from '../http/routes/retention.ts';
import { registerSeasons } from '../http/routes/seasons.ts';
import { registerSeries } from '../http/routes/series.ts';
import { registerSession } from '../http/routes/session.ts';
import { registerSites } from '../http/routes/sites.ts';
import { shareBehindProxy } from '../http/share-behind-proxy.ts';
import type { TlsFiles } from '../http/tls.ts';
import { trustedProxies } from '../http/trusted-proxies.ts';
import { boundUnfinishedBodies } from '../http/unfinished-bodies.ts';
import { BatchLife } from '../services/lineage/batch-life.ts';
import type { Installation } from './installation.ts';

export interface AppOptions {
  /** Folder of the built pages; without it only the API answers. */
  readonly pagesDir?: string;
  /** Certificate and key, when the server speaks TLS itself. */
  readonly tls?: TlsFiles;
  /** How long the rest of a body may stay away [ms]; given by tests only. */
  readonly stalledBodyMs?: number;
  /** A worker without pages answers how it is, and nothing else. */
  readonly only?: 'ingest';
}

const halfYearS = 15_552_000;

/** Headers come at once, or not at all; looked at every few seconds. */
const patience = { headersTimeout: 15_000, connectionsCheckingInterval: 5_000 };
const handshakeMs = 10_000;
/** The largest photo over the slowest line of a farm, some 200 kbit/s. */
const longestRequestMs = 600_000;
const usualStallMs = 30_000;
/** A page sends a few at once; a body follows its headers within a moment, or its line is too slow to be let in during an attack. */
const unfinishedBounds = { mostOfOne: 64, patienceMs: 250 };

type TlsServerOptions = TlsFiles & typeof patience & { handshakeTimeout: number };

/** Stands for Fastify's own compilers, which it would load before it hears of those set below. */
function neverAsked(): never {
  throw new Error('Cannot compile a schema as the compilers for zod must be set');
}

export async function buildApp(installation: Installation, options: AppOptions = {}): Promise<FastifyInstance> {
  const serverOptions: FastifyServerOptions & { https: TlsServerOptions | null } = {
    ...(options.tls
      ? { https: { ...options.tls, ...patience, handshakeTimeout: handshakeMs } }
      : { https: null, http: patience }),
    requestTimeout: longestRequestMs,
    // Only what proxies named in the configuration say of where a request comes from is believed.
    trustProxy: installation.config.TRUSTED_PROXIES ?? false,
    loggerInstance: installation.log.child({}, { serializers: logSerializers }),
    logController: new QuietRequests(),
    bodyLimit: 1_000_000,
    routerOptions: { maxParamLength: 200 },
    forceCloseConnections: true,
    schemaController: { compilersFactory: { buildValidator: neverAsked, buildSerializer: neverAsked } },
  };
  const app: FastifyInstance = Fastify(serverOptions);
  // A form of another site can send plain text without being asked; nothing here reads it.
  app.removeContentTypeParser('text/plain');
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  const { CONNECTIONS: most, TRUSTED_PROXIES: proxies = [] } = installation.config;
  const mostOfOne = Math.ceil(most / 4);
  const { stalledBodyMs = usualStallMs } = options;
  const isProxy = trustedProxies(proxies);
  boundUnfinishedBodies(app.server, unfinishedBounds, isProxy);
  boundConnections(app.server, { most, mostOfOne, stalledBodyMs }, isProxy);
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
    strictTransportSecurity: false, // sent over TLS only, below
    referrerPolicy: { policy: 'no-referrer' },
  });
  app.addHook('onRequest', async (request, reply) => {
    if (request.protocol === 'https') reply.header('Strict-Transport-Security', `max-age=${halfYearS}`);
  });
  // After the protecting headers, so that a refusal carries them too.
  await app.register(cookie);
  shareBehindProxy(app, mostOfOne);
  registerGuard(app, installation.people.known, installation.config.PUBLIC_URL);
  refuseNul(app);
  registerAudit(app, installation.people.trail);
  await app.register(rateLimit, { global: false, keyGenerator: ({ ip }) => normalizeIP(ip, 64) });
  await app.register(compress, { encodings: ['br', 'gzip'], threshold: 4096, brotliOptions: { params: { 1: 4 } } });
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: { title: 'Branhearth', version: installation.version, description: 'Piles, probes, readings and alarms.' },
      components: {
        securitySchemes: {
          session: { type: 'apiKey', in: 'cookie', name: 'branhearth_session' },
          token: { type: 'http', scheme: 'bearer' },
        },
      },
    },
    transform: describeRoute,
  });

  const api = app.withTypeProvider<ZodTypeProvider>();
  registerHealth(api, installation);
  if (options.only === 'ingest') {
    registerMetrics(api, installation);
    await registerPages(app, undefined);
    return app;
  }
  registerSession(api, installation);
  registerMe(api, installation);
  registerPeople(api, installation);
  registerHeld(api, installation);
  registerAuditRoute(api, installation);
  registerSites(api, installation);
  registerPiles(api, installation);
  registerSeries(api, installation);
  registerSeasons(api, installation);
  registerActs(api, installation);
  registerEntries(api, installation);
  registerPhotos(api, installation);
  const life = new BatchLife(installation);
  registerBatches(api, installation, life);
  registerLots(api, installation, life);
  registerRecords(api, installation);
  registerExports(api, installation);
  registerCalendar(api, installation);
  registerLabels(api, installation);
  registerImport(api, installation);
  registerKeeping(api, installation);
  registerAlarms(api, installation);
  registerTelling(api, installation);
  registerAlarmLinkAnswers(api, installation);
  await registerAlarmLinks(api, { ...installation, people: installation.delivery.people });
  registerProbes(api, installation);
  registerPlan(api);
  registerIngest(api, installation);
  registerMappings(api, installation);
  registerKeys(api, installation);
  registerLive(api, installation);
  registerMetrics(api, installation);
  api.get(
    '/api/openapi.json',
    { config: { access: 'viewer' }, schema: { response: fileAnswer('This description.', 'application/json') } },
    async () => app.swagger(),
  );
  await registerPages(app, options.pagesDir);
  refuseUnguarded();
  return app;
}
