/** The address under which people reach this server. */
import type { FastifyRequest } from 'fastify';
import { isLoopback } from '../../shared/config.ts';

/** As configured, else as this request reached us. @returns Without a slash at its end. */
export function publicAddress(configured: string | undefined, request: FastifyRequest): string {
  return configured ?? `${request.protocol}://${request.host}`;
}

/** Whether another machine could open it. */
export function opensElsewhere(address: string): boolean {
  return URL.canParse(address) && !isLoopback(new URL(address).hostname.replace(/^\[|\]$/g, ''));
}
