/**
 * Whether a change is asked for by one of our own pages.
 *
 * After the OWASP Cross-Site Request Forgery Prevention Cheat Sheet: what the browser itself says of where a request
 * comes from (Fetch Metadata, then Origin); a page cannot alter either. SameSite cookies are the other half.
 */
import type { FastifyRequest } from 'fastify';

export type FromPage = 'own' | 'other' | 'unsaid';

/** @param publicUrl Where people reach us, when that is configured. */
export function fromPage(request: FastifyRequest, publicUrl: string | undefined): FromPage {
  const { origin, 'sec-fetch-site': site } = request.headers;
  if (site !== undefined) return site === 'same-origin' || site === 'none' ? 'own' : 'other';
  if (origin === undefined) return 'unsaid';
  if (!URL.canParse(origin)) return 'other';
  // Only the host: a proxy before us that is not configured as trusted hides that it speaks TLS.
  const { host } = new URL(origin);
  return host === withoutUsualPort(request.host) || (publicUrl !== undefined && host === new URL(publicUrl).host)
    ? 'own'
    : 'other';
}

const withoutUsualPort = (host: string) => host.replace(/:(80|443)$/, '');
