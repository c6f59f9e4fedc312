/**
 * Every "no" of the API as an RFC 9457 problem, its sentences beside the messages that they are made from. It never shows a caller what
 * is inside an unexpected error; that goes to the log.
 */
import type { FastifyError, FastifyInstance, FastifyReply, FastifySchemaValidationError } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import type { Problem } from '../../shared/contracts/problem.ts';
import { ConflictError, StoreError } from '../../shared/errors.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { type Message, type MessageParams, message, verbatim } from '../../shared/messages/message.ts';
import { type FieldProblem, fieldProblem, saidOfFields } from '../field-problem.ts';
import { Refusal } from '../refusal.ts';

const titles: Readonly<Record<number, Message>> = {
  400: message('problem.title.400'),
  401: message('problem.title.401'),
  403: message('problem.title.403'),
  404: message('problem.title.404'),
  405: message('problem.title.405'),
  409: message('problem.title.409'),
  410: message('problem.title.410'),
  413: message('problem.title.413'),
  415: message('problem.title.415'),
  422: message('problem.title.422'),
  429: message('problem.title.429'),
  500: message('problem.title.500'),
  503: message('problem.title.503'),
};

/** Answers with a problem; the reader's own words come later, from its messages (`reader-of.ts`). */
export function sendProblem(
  reply: FastifyReply,
  status: number,
  said: Message,
  fields?: readonly FieldProblem[],
): FastifyReply {
  const { title, detail, messages } = inWords(
    { title: titles[status] ?? message('problem.title.other'), detail: said },
    0,
  );
  const problem: Problem = {
    type: 'about:blank',
    title,
    status,
    detail,
    instance: reply.request.url,
    ...(fields && {
      errors: fields.map((field) => ({ pointer: field.pointer, ...inWords({ detail: field.said }, 0) })),
    }),
    messages,
  };
  return reply.code(status).type('application/problem+json').serializer(JSON.stringify).send(problem);
}

/** The same sentence for the whole and for the one field that is at fault. */
export function refuseField(reply: FastifyReply, status: number, { pointer, said }: FieldProblem): FastifyReply {
  return sendProblem(reply, status, said, [{ pointer, said }]);
}

/** @param what As the message names it, so that it can be said in every language. */
export function notFound(reply: FastifyReply, what: MessageParams['problem.not-found']['what'], id: string) {
  return sendProblem(reply, 404, message('problem.not-found', { what, idText: id }));
}

export function registerProblems(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    if (hasZodFastifySchemaValidationErrors(error)) {
      const fields = error.validation.map(fieldProblemOf);
      const where = places[error.validationContext ?? ''] ?? 'other';
      return sendProblem(reply, 400, saidOfFields(fields, where), fields);
    }
    if (error instanceof Refusal) {
      const { pointer, fields, retryAfterS } = error.more;
      if (retryAfterS !== undefined) reply.header('Retry-After', retryAfterS);
      const atFault = pointer === undefined ? fields : [{ pointer, said: error.said }];
      return sendProblem(reply, error.status, error.said, atFault);
    }
    if (error instanceof ConflictError) return refuseField(reply, 409, error);
    if (error instanceof StoreError) {
      request.log.error({ err: error }, 'store');
      return sendProblem(reply, 503, message('problem.store-unusable'));
    }
    const status = error.statusCode ?? 500;
    if (status < 500) return sendProblem(reply, status, saidByFastify(error, request.headers['content-type']));
    request.log.error({ err: error }, 'unexpected');
    return sendProblem(reply, 500, message('problem.unexpected'));
  });
}

const places: Readonly<Record<string, 'address' | 'headers'>> = {
  querystring: 'address',
  params: 'address',
  headers: 'headers',
};

/** What zod found beside its path stands in the parameters. */
function fieldProblemOf({ instancePath, keyword, message: words, params }: FastifySchemaValidationError): FieldProblem {
  const { params: own, ...found } = params as { params?: object };
  const path = instancePath.split('/').slice(1);
  return fieldProblem({ ...found, params: own, code: keyword, path, message: words ?? '' });
}

/** What Fastify refuses by itself, by its codes; anything else in its own words. */
function saidByFastify({ code, message: words }: FastifyError, contentType: string | undefined): Message {
  switch (code) {
    case 'FST_ERR_CTP_INVALID_JSON_BODY':
      return message('problem.not-json');
    case 'FST_ERR_CTP_EMPTY_JSON_BODY':
      return message('problem.empty-json');
    case 'FST_ERR_CTP_INVALID_MEDIA_TYPE':
      return contentType === undefined
        ? message('problem.no-kind-given')
        : message('problem.not-a-kind-we-read', { typeText: contentType.slice(0, 100) });
    case 'FST_ERR_CTP_BODY_TOO_LARGE':
      return message('problem.body-too-large');
    case 'FST_ERR_CTP_INVALID_CONTENT_LENGTH':
      return message('problem.wrong-length');
    case 'FST_ERR_BAD_URL':
      return message('problem.bad-address');
    case 'FST_ERR_RATE_LIMIT':
      return message('problem.too-often');
    default:
      return verbatim(/[.!?]$/.test(words) ? words : `${words}.`);
  }
}
