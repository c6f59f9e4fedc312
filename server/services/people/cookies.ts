/**
 * The two cookies: one of the session, one by which a browser is known again.
 *
 * HttpOnly, so that no script reads them; SameSite=Lax, so that no other site's form sends them; over TLS also Secure
 * and with the prefix `__Host-`, so that no neighbour under the same domain can set them (RFC 6265bis, section
 * 4.1.3.2).
 */
import type { CookieSerializeOptions } from '@fastify/cookie';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { isSame, sealOf } from './secrets.ts';

const yearS = 31_536_000;
const names = { session: 'branhearth_session', device: 'branhearth_device' } as const;
type Cookie = keyof typeof names;

/** Over TLS, up to a proxy that we trust or up to ourselves. */
const isSecure = (request: FastifyRequest) => request.protocol === 'https';
const nameOf = (cookie: Cookie, secure: boolean) => `${secure ? '__Host-' : ''}${names[cookie]}`;

export function readCookie(request: FastifyRequest, cookie: Cookie): string | undefined {
  return request.cookies[nameOf(cookie, isSecure(request))];
}

/** @param value Undefined takes it away. @param endsAtMs When the browser forgets it; a year when absent. */
export function setCookie(reply: FastifyReply, cookie: Cookie, value: string | undefined, maxAgeS = yearS): void {
  const secure = isSecure(reply.request);
  const options: CookieSerializeOptions = { path: '/', httpOnly: true, sameSite: 'lax', secure };
  const name = nameOf(cookie, secure);
  if (value === undefined) reply.clearCookie(name, options);
  else reply.setCookie(name, value, { ...options, maxAge: maxAgeS });
}

/**
 * A device cookie is worth something for one account only, and only until its password changes.
 * @param key The server's own secret. @param passwordHash As kept now.
 */
export function deviceCookie(key: string, personId: string, passwordHash: string, nonce: string): string {
  return `${nonce}.${sealOf(key, JSON.stringify([personId, passwordHash, nonce]))}`;
}

/** @returns The device's nonce, when the cookie is one of ours for this account. */
export function readDevice(
  key: string,
  person: { id: string; passwordHash: string } | undefined,
  cookie: string | undefined,
): string | undefined {
  const nonce = cookie?.split('.', 1)[0];
  if (!person || !nonce || cookie === undefined) return undefined;
  return isSame(cookie, deviceCookie(key, person.id, person.passwordHash, nonce)) ? nonce : undefined;
}
