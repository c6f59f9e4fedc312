/**
 * Whether a request was made on this machine, by a program or a page of its own. It never takes a header's word for
 * where a request comes from: any sign of a go-between says "from elsewhere".
 */
import type { FastifyRequest } from 'fastify';
import { isLoopback } from '../../../shared/config.ts';

const signsOfGoBetween = [
  'forwarded',
  'via',
  'x-real-ip',
  'x-forwarded-for',
  'x-forwarded-host',
  'x-forwarded-proto',
] as const;

/** A name rebound to this machine, a page elsewhere in the grower's own browser, and a proxy beside us are not from here. */
export function isFromHere(request: FastifyRequest): boolean {
  const { headers } = request;
  return (
    isLoopback((request.raw.socket.remoteAddress ?? '').replace(/^::ffff:/, '')) &&
    headers.host !== undefined &&
    isLoopback(bareName(request.hostname)) &&
    signsOfGoBetween.every((name) => headers[name] === undefined) &&
    Object.keys(headers).every((name) => !name.startsWith('x-forwarded-')) &&
    !isFromAnotherPage(request)
  );
}

/** As a browser tells it: Fetch Metadata (W3C) and the Origin header (Fetch standard, section 3.2). */
function isFromAnotherPage({ headers }: FastifyRequest): boolean {
  const { origin } = headers;
  if (headers['sec-fetch-site'] === 'cross-site') return true;
  return origin !== undefined && (!URL.canParse(origin) || !isLoopback(bareName(new URL(origin).hostname)));
}

const bareName = (host: string) => host.replace(/^\[|\]$/g, '');
