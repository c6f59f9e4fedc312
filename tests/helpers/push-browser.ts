/**
 * The receiving side of web push, written from the standards: a subscription, the decryption of a message (RFC 8291,
 * RFC 8188) and the check of its signature (RFC 8292), with node:crypto alone.
 */
import { createDecipheriv, createECDH, createPublicKey, type ECDH, hkdfSync, randomBytes, verify } from 'node:crypto';
import type { GotRequest } from './https-server.ts';

export interface PushBrowser {
  readonly keys: { readonly p256dh: string; readonly auth: string };
  /** @throws {Error} when the body is no message for this browser. */
  decrypt(body: Buffer): string;
}

export function makePushBrowser(): PushBrowser {
  const ecdh = createECDH('prime256v1');
  ecdh.generateKeys();
  const auth = randomBytes(16);
  return {
    keys: { p256dh: ecdh.getPublicKey().toString('base64url'), auth: auth.toString('base64url') },
    decrypt: (body) => decryptAes128Gcm(body, ecdh, auth),
  };
}

function decryptAes128Gcm(body: Buffer, ecdh: ECDH, auth: Buffer): string {
  // RFC 8188 section 2.1: salt (16), record size (4), length of the key id (1), key id = the sender's public key.
  const salt = body.subarray(0, 16);
  const recordSize = body.readUInt32BE(16);
  const idLength = body.readUInt8(20);
  const senderKey = body.subarray(21, 21 + idLength);
  const record = body.subarray(21 + idLength);
  if (idLength !== 65) throw new Error(`the key id has ${idLength} bytes instead of 65`);
  if (record.length > recordSize) throw new Error('more than one record (RFC 8291 section 4)');
  // RFC 8291 section 3.4.
  const info = Buffer.concat([Buffer.from('WebPush: info\0'), ecdh.getPublicKey(), senderKey]);
  const ikm = Buffer.from(hkdfSync('sha256', ecdh.computeSecret(senderKey), auth, info, 32));
  const key = Buffer.from(hkdfSync('sha256', ikm, salt, Buffer.from('Content-Encoding: aes128gcm\0'), 16));
  const nonce = Buffer.from(hkdfSync('sha256', ikm, salt, Buffer.from('Content-Encoding: nonce\0'), 12));
  const decipher = createDecipheriv('aes-128-gcm', key, nonce);
  decipher.setAuthTag(record.subarray(-16));
  const padded = Buffer.concat([decipher.update(record.subarray(0, -16)), decipher.final()]);
  // RFC 8188 section 2: the last record ends in a 2 and zeros.
  const end = padded.lastIndexOf(2);
  if (end < 0 || padded.subarray(end + 1).some((byte) => byte !== 0)) throw new Error('no end of the last record');
  return padded.subarray(0, end).toString('utf8');
}

/** RFC 8292: the JWT of the request, checked against the key it names. @returns What it claims. */
export function checkVapid(request: GotRequest, audience: string, nowS: number): { sub: string; publicKey: string } {
  const found = /^vapid t=([\w-]+)\.([\w-]+)\.([\w-]+), ?k=([\w-]+)$/.exec(request.headers.authorization ?? '');
  const [, head = '', claims = '', signature = '', publicKey = ''] = found ?? [];
  if (!found) throw new Error(`not a vapid credential: ${request.headers.authorization}`);
  const point = Buffer.from(publicKey, 'base64url');
  const jwk = {
    kty: 'EC',
    crv: 'P-256',
    x: point.subarray(1, 33).toString('base64url'),
    y: point.subarray(33).toString('base64url'),
  };
  const key = createPublicKey({ key: jwk, format: 'jwk' });
  const signed = Buffer.from(`${head}.${claims}`);
  const ok = verify('sha256', signed, { key, dsaEncoding: 'ieee-p1363' }, Buffer.from(signature, 'base64url'));
  if (!ok) throw new Error('the signature is not of that key');
  const header = JSON.parse(Buffer.from(head, 'base64url').toString()) as { alg: string };
  const body = JSON.parse(Buffer.from(claims, 'base64url').toString()) as { aud: string; exp: number; sub: string };
  if (header.alg !== 'ES256') throw new Error(`alg is ${header.alg}`);
  if (body.aud !== audience) throw new Error(`aud is ${body.aud}`);
  // Section 2: within 24 hours of the request.
  if (!(body.exp > nowS && body.exp <= nowS + 86_400)) throw new Error(`exp is ${body.exp}`);
  return { sub: body.sub, publicKey };
}
