/**
 * Every "no" of the API as an RFC 9457 problem. It never shows a caller what is inside an unexpected error; that goes
 * to the log.
 */
import type { FastifyError, FastifyInstance, FastifyReply } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import type { Problem } from '../../shared/contracts/problem.ts';
import { ConflictError, StoreError } from '../../shared/errors.ts';
import { Refusal } from '../services/refusal.ts';

const titles: Record<number, string> = {
  400: 'The request cannot be read',
  401: 'Who are you?',
  403: 'Not allowed',
  404: 'Nothing is here',
  405: 'Not this way',
  409: 'This does not fit with what is there',
  410: 'Gone',
  413: 'Too large',
  415: 'Not a kind of content we read',
  422: 'Some fields need another value',
  429: 'Too many requests',
  500: 'Something went wrong here',
  503: 'Not ready',
};

export type ProblemExtras = Pick<Problem, 'errors'>;

/** Answers with a problem; `detail` is one sentence a person can act on. */
export function sendProblem(reply: FastifyReply, status: number, detail: string, extras: ProblemExtras = {}) {
  const problem: Problem = {
    type: 'about:blank',
    title: titles[status] ?? 'The request failed',
    status,
    detail,
    instance: reply.request.url,
    ...extras,
  };
  return reply.code(status).type('application/problem+json').serializer(JSON.stringify).send(problem);
}

export function notFound(reply: FastifyReply, what: string, id: string) {
  return sendProblem(reply, 404, `There is no ${what} "${id}".`);
}

export function registerProblems(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    if (hasZodFastifySchemaValidationErrors(error)) {
      // instancePath is a JSON Pointer already; the context says whether body, query or address was at fault.
      const errors = error.validation.map((issue) => ({
        pointer: issue.instancePath,
        detail: issue.message ?? 'not valid',
      }));
      const where = error.validationContext ?? 'request';
      const detail = errors.map((one) => `${one.pointer || 'the whole'} ${one.detail}`).join('; ');
      return sendProblem(reply, 400, `In the ${where}: ${detail}.`, { errors });
    }
    if (error instanceof Refusal) {
      const { pointer, retryAfterS } = error.more;
      if (retryAfterS !== undefined) reply.header('Retry-After', retryAfterS);
      const errors = pointer === undefined ? {} : { errors: [{ pointer, detail: error.message }] };
      return sendProblem(reply, error.status, error.message, errors);
    }
    if (error instanceof ConflictError) {
      return sendProblem(reply, 409, `${error.message}.`, {
        errors: [{ pointer: error.pointer, detail: error.message }],
      });
    }
    if (error instanceof StoreError) {
      request.log.error({ err: error }, 'store');
      return sendProblem(reply, 503, 'The store cannot be used just now; nothing was changed. Try again in a moment.');
    }
    const status = error.statusCode ?? 500;
    if (status < 500) return sendProblem(reply, status, `${error.message}.`);
    request.log.error({ err: error }, 'unexpected');
    return sendProblem(reply, 500, 'Something went wrong here; the log of the server says what.');
  });
}
