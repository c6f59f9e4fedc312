/**
 * Every route says who may call it, in its options and in the description. It never lets an application be built in
 * which a route says nothing.
 */
import type { FastifyInstance, RouteOptions } from 'fastify';
import { jsonSchemaTransform } from 'fastify-type-provider-zod';
import type { Access } from '../../shared/person.ts';

declare module 'fastify' {
  interface FastifyContextConfig {
    access?: Access;
    /** Only for whoever is signed in: no token is enough, and this machine neither. */
    inPerson?: true;
    /** An open route whose address holds a secret: a form in a mailbox may lead to it, from whatever page. */
    ownSecret?: true;
  }
  interface FastifyInstance {
    readonly routeList: readonly ListedRoute[];
  }
}

interface ListedRoute {
  readonly method: string;
  readonly url: string;
  readonly access: Access;
  /** What the audit trail says of it; false for what changes nothing or writes its own row. */
  readonly does: string | false | undefined;
  /** Left out of the description: the documents and files of the pages. */
  readonly hidden: boolean;
}

/** Call before the first route. @returns A check for after the last one. */
export function registerRouteAccess(app: FastifyInstance): { refuseUnguarded(): void } {
  const routes: RouteOptions[] = [];
  app.addHook('onRoute', (route) => {
    routes.push(route);
  });
  const missing = () => routes.filter(({ config }) => config?.access === undefined);
  const refuseUnguarded = () => {
    const names = missing().map(({ method, url }) => `${method} ${url}`);
    if (names.length === 0) return;
    throw new Error(`Every route must say who may call it, as config: { access }; missing at ${names.join(', ')}`);
  };
  // Also for what was added after the application was thought complete.
  app.addHook('onReady', async () => refuseUnguarded());

  app.decorate('routeList', {
    getter: () =>
      routes.flatMap(({ method, url, config, schema }) =>
        [method].flat().map((one) => ({
          method: one,
          url,
          access: config?.access ?? 'owner',
          does: config?.does,
          hidden: (schema as { hide?: boolean } | undefined)?.hide === true,
        })),
      ),
  });
  return { refuseUnguarded };
}

const bySession = { session: [] };
const byToken = { token: [] };

/** The description of a route with who may call it: `x-access`, and the ways to become known unless it is open. */
export const describeRoute: typeof jsonSchemaTransform = (document) => {
  const { schema, url } = jsonSchemaTransform(document);
  if (!schema || schema.hide) return { schema, url };
  const { access, inPerson } = (document as { route?: RouteOptions }).route?.config ?? {};
  const security = access === 'open' ? [] : inPerson ? [bySession] : [bySession, byToken];
  return { schema: { ...schema, 'x-access': access, ...(inPerson && { 'x-in-person': true }), security }, url };
};
