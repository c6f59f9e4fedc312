/**
 * Every change goes into the audit trail, before its answer leaves. It never needs a route to remember it: one that
 * says nothing is written down by its method and address; `does: false` is for those that change nothing, and for those
 * that write their row themselves. A body reaches the row only as its schema left it; where a route has none, a body is
 * refused.
 */
import type { FastifyInstance, FastifyReply, FastifyRequest, RouteOptions } from 'fastify';
import { message, verbatim } from '../../shared/messages/message.ts';
import type { AuditTrail, Mutation } from '../services/people/audit-trail.ts';
import type { AuditedCode } from '../services/people/audited-code.ts';
import { sendProblem } from './problem.ts';

declare module 'fastify' {
  interface FastifyContextConfig {
    does?: AuditedCode | false;
  }
  interface FastifyRequest {
    /** What the route adds to its row of the audit trail. */
    audited: Partial<Mutation> | null;
    /** Whether the route has begun, so that it may have changed something. */
    begun: boolean;
  }
}

const changes = new Set(['POST', 'PUT', 'PATCH', 'DELETE']);

/** Adds to what the audit trail will say of this request. */
export function audit(request: FastifyRequest, mutation: Partial<Mutation>): void {
  request.audited = { ...request.audited, ...mutation };
}

export function registerAudit(app: FastifyInstance, trail: AuditTrail): void {
  app.decorateRequest('audited', null);
  app.decorateRequest('begun', false);
  app.addHook('onRoute', (route: RouteOptions) => {
    const methods = [route.method].flat().filter((method) => changes.has(method.toUpperCase()));
    if (methods.length === 0) return;
    const takesBody = (route.schema as { body?: unknown } | undefined)?.body !== undefined;
    // Nothing is read of the form that a mailbox may send to an address with a secret of its own.
    if (!takesBody && !route.config?.ownSecret) {
      route.preValidation = [...[route.preValidation ?? []].flat(), refuseBody];
    }
    if (route.config?.does === false) return;
    const code = route.config?.does;
    const does = code === undefined ? verbatim(`${methods.join('/')} ${route.url}`) : message(code);
    route.preHandler = [
      ...[route.preHandler ?? []].flat(),
      async (request: FastifyRequest) => {
        await trail.settle();
        request.begun = true;
      },
    ];
    route.onSend = [
      ...[route.onSend ?? []].flat(),
      async (request: FastifyRequest, reply, payload) => {
        const { statusCode } = reply;
        const failed = statusCode >= 500;
        if (!request.begun || (statusCode >= 400 && !failed)) return payload;
        const body = takesBody && isPlain(request.body) ? request.body : undefined;
        const what = failed ? message('audit.failed', { didPart: does, statusNumber: statusCode }) : does;
        const subject = subjectOf(request, failed ? undefined : payload);
        await trail.add(request, { what, subject, after: body, ...request.audited });
        return payload;
      },
    ];
  });
}

/** Nothing would read it, and what nobody reads nobody checks. Pages of before sent `{}`. */
async function refuseBody(request: FastifyRequest, reply: FastifyReply): Promise<unknown> {
  const { body } = request;
  const isEmpty = body === undefined || body === null || (isPlain(body) && Object.keys(body).length === 0);
  if (!isEmpty || Array.isArray(body)) {
    return sendProblem(reply, 400, message('problem.takes-no-body'));
  }
  request.body = undefined;
  return undefined;
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
