/** The Fastify application: guards, routes, pages. It never listens; main.ts does. */
import compress from '@fastify/compress';
import cookie from '@fastify/cookie';
import rateLimit, { normalizeIP } from '@fastify/rate-limit';
import Fastify, { type FastifyInstance, type FastifyServerOptions } from 'fastify';
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import { registerApiDescription } from '../http/api-description.ts';
import { registerAudit } from '../http/audit-hook.ts';
import { boundConnections } from '../http/connections.ts';
import { registerGuard } from '../http/guard.ts';
import { logSerializers } from '../http/log-serializers.ts';
import { noticeMqttAtPages } from '../http/mqtt-at-pages.ts';
import { registerPages } from '../http/pages.ts';
import { registerProblems } from '../http/problem.ts';
import { registerProtectingHeaders } from '../http/protecting-headers.ts';
import { registerReaders } from '../http/reader-of.ts';
import { refuseNul } from '../http/refuse-nul.ts';
import { QuietRequests } from '../http/request-log.ts';
import { registerRouteAccess } from '../http/route-access.ts';
import { registerHealth } from '../http/routes/health.ts';
import { registerMetrics } from '../http/routes/metrics.ts';
import { shareBehindProxy } from '../http/share-behind-proxy.ts';
import type { TlsFiles } from '../http/tls.ts';
import { trustedProxies } from '../http/trusted-proxies.ts';
import { boundUnfinishedBodies } from '../http/unfinished-bodies.ts';
import type { Installation } from './installation.ts';
import { registerRoutes } from './register-routes.ts';

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

/** Headers come at once, or not at all; looked at every few seconds. */
const patience = { headersTimeout: 15_000, connectionsCheckingInterval: 5_000 };
const handshakeMs = 10_000;
/** The largest photo over the slowest line of a farm, some 200 kbit/s. */
const longestRequestMs = 600_000;
const usualStallMs = 30_000;
/** A page sends a few at once; a body follows its headers within a moment, or its line is too slow to be let in during an attack. */
const unfinishedBounds = { mostOfOne: 64, patienceMs: 250, rememberedMs: 5_000 };

type TlsServerOptions = TlsFiles & typeof patience & { handshakeTimeout: number };

/** Stands for Fastify's own compilers, which it would load before it hears of those set below. */
function neverAsked(): never {
  throw new Error('Cannot compile a schema as the compilers for zod must be set');
}

function serverOptions(
  { config, log }: Pick<Installation, 'config' | 'log'>,
  tls: TlsFiles | undefined,
): FastifyServerOptions & { https: TlsServerOptions | null } {
  return {
    ...(tls ? { https: { ...tls, ...patience, handshakeTimeout: handshakeMs } } : { https: null, http: patience }),
    requestTimeout: longestRequestMs,
    // Only what proxies named in the configuration say of where a request comes from is believed.
    trustProxy: config.TRUSTED_PROXIES ?? false,
    loggerInstance: log.child({}, { serializers: logSerializers }),
    logController: new QuietRequests(),
    bodyLimit: 1_000_000,
    routerOptions: { maxParamLength: 200 },
    forceCloseConnections: true,
    schemaController: { compilersFactory: { buildValidator: neverAsked, buildSerializer: neverAsked } },
  };
}

export async function buildApp(installation: Installation, options: AppOptions = {}): Promise<FastifyInstance> {
  const app: FastifyInstance = Fastify(serverOptions(installation, options.tls));
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
  noticeMqttAtPages(app.server, (address) =>
    installation.authPolicy?.connectionAttempts.count({ address, clientId: '', keyId: null, reason: 'pages-port' }),
  );
  registerProblems(app);
  const { refuseUnguarded } = registerRouteAccess(app);

  await registerProtectingHeaders(app);
  // After the protecting headers, so that a refusal carries them too.
  await app.register(cookie);
  shareBehindProxy(app, mostOfOne);
  registerGuard(app, installation.people.known, installation.config.PUBLIC_URL);
  refuseNul(app);
  registerAudit(app, installation.people.trail);
  registerReaders(app, installation.clock.nowMs);
  await app.register(rateLimit, { global: false, keyGenerator: ({ ip }) => normalizeIP(ip, 64) });
  await app.register(compress, { encodings: ['br', 'gzip'], threshold: 4096, brotliOptions: { params: { 1: 4 } } });
  const api = app.withTypeProvider<ZodTypeProvider>();
  if (options.only !== 'ingest') registerApiDescription(api, installation.version);
  registerHealth(api, installation);
  if (options.only === 'ingest') {
    registerMetrics(api, installation);
    await registerPages(app, undefined);
    return app;
  }
  await registerRoutes(api, installation);
  await registerPages(app, options.pagesDir);
  refuseUnguarded();
  return app;
}
