import type { IncomingMessage } from 'node:http';

/** RFC 9112, section 6.3: without either header a request has no body. */
export function hasBody({ headers }: IncomingMessage): boolean {
  return headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0;
}
