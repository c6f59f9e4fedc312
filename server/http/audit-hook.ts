/**
 * server/http/audit-hook.ts: every change that succeeds goes into the audit trail, before its answer leaves.
 *
 * Takes:  the routes as they are added; what each does, in the past tense, as `config: { does: 'laid a pile' }`.
 * Gives:  a row for each answer below 400 to POST, PUT, PATCH and DELETE. A route may add to it with `tell`.
 * Never:  needs a route to remember it: one that says nothing is written down by its method and address; `does: false` is
 *         for those that change nothing, and for those that write their row themselves.
 */
import type { FastifyInstance, FastifyRequest, RouteOptions } from 'fastify';
import type { AuditTrail, Deed } from '../people/audit-trail.ts';

declare module 'fastify' {
  interface FastifyContextConfig {
    does?: string | false;
  }
  interface FastifyRequest {
    /** What the route adds to its row of the audit trail. */
    told: Partial<Deed> | null;
  }
}

const changes = new Set(['POST', 'PUT', 'PATCH', 'DELETE']);

/** Adds to what the audit trail will say of this request. */
export function tell(request: FastifyRequest, deed: Partial<Deed>): void {
  request.told = { ...request.told, ...deed };
}

export function registerAudit(app: FastifyInstance, trail: AuditTrail): void {
  app.decorateRequest('told', null);
  app.addHook('onRoute', (route: RouteOptions) => {
    const methods = [route.method].flat().filter((method) => changes.has(method.toUpperCase()));
    if (methods.length === 0 || route.config?.does === false) return;
    const does = route.config?.does ?? `${methods.join('/')} ${route.url}`;
    route.onSend = [
      ...[route.onSend ?? []].flat(),
      async (request: FastifyRequest, reply, payload) => {
        if (reply.statusCode >= 400) return payload;
        const body = isPlain(request.body) ? request.body : undefined;
        try {
          await trail.add(request, { what: does, subject: subjectOf(request, payload), after: body, ...request.told });
        } catch (error) {
          // The change itself is done: to say that it failed would have it made twice.
          request.log.error({ err: error, what: does }, 'a change is missing from the audit trail');
        }
        return payload;
      },
    ];
  });
}

function isPlain(body: unknown): body is object {
  return typeof body === 'object' && body !== null && !(body instanceof Uint8Array);
}

/** What the address names; else what was made, as its answer tells. */
function subjectOf(request: FastifyRequest, payload: unknown): string | undefined {
  const named = Object.values((request.params ?? {}) as Record<string, string>).join('/');
  if (named !== '') return named;
  if (typeof payload !== 'string' || payload.length > 100_000) return undefined;
  try {
    const { id, name } = JSON.parse(payload) as { id?: unknown; name?: unknown };
    return typeof id === 'string' ? id : typeof name === 'string' ? name : undefined;
  } catch {
    return undefined;
  }
}
