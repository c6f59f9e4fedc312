/**
 * One line for each request, for those who look for a fault: at the usual level a log has what happened to piles, and an attack
 * cannot fill it.
 */
import { type FastifyReply, type FastifyRequest, LogController } from 'fastify';

export class QuietRequests extends LogController {
  override incomingRequest(): void {}

  override requestCompleted(error: Error | null | undefined, request: FastifyRequest, reply: FastifyReply): void {
    const answered = { req: request, statusCode: reply.statusCode, tookMs: Math.round(reply.elapsedTime) };
    if (error) request.log.error({ ...answered, err: error }, 'request failed');
    else request.log.debug(answered, 'request answered');
  }
}
