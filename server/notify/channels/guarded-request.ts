/**
 * One request to an address that a person gave, which may be anything. It never reaches into this machine or its
 * network unless allowed, follows a redirect, or asks the name a second time: the connection goes to the very address
 * that was looked at, so a name cannot be rebound in between.
 */
import { lookup as lookupName } from 'node:dns/promises';
import { request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';
import { BlockList, isIP, type LookupFunction } from 'node:net';
import { type Message, message } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';

export interface GuardedOptions {
  /** `host:port` as they stand in addresses, e.g. "192.168.1.20:8080" or "sirens.farm.example:443". */
  readonly allowed: readonly string[];
  readonly timeoutMs: number;
  /** Of an answer so much is read; 4 KiB when absent. */
  readonly mostAnswerBytes?: number;
  /** For tests: certificates to trust beside those of Node. */
  readonly trust?: string | undefined;
  /** For tests: who answers for names. */
  readonly lookup?: (host: string) => Promise<readonly { address: string; family: number }[]>;
}

export interface GuardedAsk {
  readonly method: 'POST' | 'PUT' | 'GET';
  readonly url: string;
  readonly headers: Readonly<Record<string, string | number>>;
  readonly body?: string | Buffer;
}

export interface GuardedAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

/** Why nothing came of it, where that is for us to say. */
export class RequestError extends Error {
  readonly said: Message;
  constructor(said: Message) {
    super(plainEnglish(said));
    this.said = said;
  }
}

/** The address may not be asked at all, now or later. */
export class AddressRefused extends RequestError {
  override readonly name = 'AddressRefused';
}

export const noAnswerWithin = (timeoutMs: number): RequestError =>
  new RequestError(message('delivery.no-answer', { secondsCount: Math.round(timeoutMs / 1000) }));

const usualAnswerBytes = 4_096;

/** IANA special-purpose address registries (RFC 6890 and its updates): nothing that is not the open internet. */
const inner = new BlockList();
for (const [net, bits] of [
  ['0.0.0.0', 8],
  ['10.0.0.0', 8],
  ['100.64.0.0', 10],
  ['127.0.0.0', 8],
  ['169.254.0.0', 16],
  ['172.16.0.0', 12],
  ['192.0.0.0', 24],
  ['192.0.2.0', 24],
  ['192.88.99.0', 24],
  ['192.168.0.0', 16],
  ['198.18.0.0', 15],
  ['198.51.100.0', 24],
  ['203.0.113.0', 24],
  ['224.0.0.0', 4],
  ['240.0.0.0', 4],
] as const)
  inner.addSubnet(net, bits, 'ipv4');
for (const [net, bits] of [
  ['::', 128],
  ['::1', 128],
  ['::', 96],
  ['64:ff9b::', 96],
  ['64:ff9b:1::', 48],
  ['100::', 64],
  ['2001::', 23],
  ['2001:db8::', 32],
  ['2002::', 16],
  ['fc00::', 7],
  ['fe80::', 10],
  ['fec0::', 10],
  ['ff00::', 8],
] as const)
  inner.addSubnet(net, bits, 'ipv6');

/** Whether an address, in any of its spellings, is not of the open internet. */
export function isInner(address: string): boolean {
  const family = isIP(address);
  if (family === 0) return true;
  if (family === 4) return inner.check(address, 'ipv4');
  const mapped = mappedIpv4(address);
  return mapped === undefined ? inner.check(address, 'ipv6') : inner.check(mapped, 'ipv4');
}

/** ::ffff:10.0.0.1 and ::ffff:a00:1 are 10.0.0.1. */
function mappedIpv4(address: string): string | undefined {
  const canonical = new URL(`http://[${address.split('%', 1)[0]}]/`).hostname.slice(1, -1);
  const found = /^::ffff:([0-9a-f]{1,4}):([0-9a-f]{1,4})$/.exec(canonical);
  if (!found) return undefined;
  const [high, low] = [Number.parseInt(found[1] ?? '0', 16), Number.parseInt(found[2] ?? '0', 16)];
  return [high >> 8, high & 255, low >> 8, low & 255].join('.');
}

/** "host:port" as in `allowed`, of any address; WHATWG URL parsing has made decimal and octal spellings plain by then. */
function hostAndPort(url: URL): string {
  return `${url.hostname}:${url.port || (url.protocol === 'https:' ? '443' : '80')}`;
}

/** @throws {AddressRefused} when it must not be asked; Error when it does not answer. */
export async function guardedRequest(ask: GuardedAsk, options: GuardedOptions): Promise<GuardedAnswer> {
  const deadlineMs = Date.now() + options.timeoutMs;
  const { url, address } = await checkedAddress(ask.url, options);
  return send(url, address, ask, options, Math.max(1, deadlineMs - Date.now()));
}

interface Resolved {
  readonly address: string;
  readonly family: number;
}

/** @throws {AddressRefused} */
export async function checkedAddress(text: string, options: GuardedOptions): Promise<{ url: URL; address: Resolved }> {
  if (!URL.canParse(text)) throw new AddressRefused(message('delivery.address-unreadable'));
  const url = new URL(text);
  const isAllowed = options.allowed.includes(hostAndPort(url));
  if (url.protocol !== 'https:' && !(url.protocol === 'http:' && isAllowed)) {
    throw new AddressRefused(message('delivery.address-not-https'));
  }
  if (url.username !== '' || url.password !== '') throw new AddressRefused(message('delivery.address-with-password'));
  const host = url.hostname.replace(/^\[|\]$/g, '');
  const found = isIP(host) ? [{ address: host, family: isIP(host) }] : await named(host, options);
  const outside = isAllowed ? found : found.filter(({ address }) => !isInner(address));
  // One inner address among several is enough to refuse: such a name is made to slip through.
  const first = outside[0];
  if (first === undefined || outside.length < found.length) {
    throw new AddressRefused(message('delivery.address-inner', { addressText: hostAndPort(url) }));
  }
  return { url, address: first };
}

async function named(host: string, { lookup, timeoutMs }: GuardedOptions): Promise<readonly Resolved[]> {
  let timer: NodeJS.Timeout | undefined;
  const slow = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(
      () => reject(new RequestError(message('delivery.name-not-found', { hostText: host }))),
      timeoutMs,
    );
  });
  try {
    return await Promise.race([lookup ? lookup(host) : lookupName(host, { all: true }), slow]);
  } finally {
    clearTimeout(timer);
  }
}

function send(
  url: URL,
  { address, family }: Resolved,
  { method, headers, body }: GuardedAsk,
  { trust, mostAnswerBytes = usualAnswerBytes }: GuardedOptions,
  timeoutMs: number,
): Promise<GuardedAnswer> {
  const pinned: LookupFunction = (_host, { all }, done) =>
    all ? done(null, [{ address, family }]) : done(null, address, family);
  const request = url.protocol === 'https:' ? httpsRequest : httpRequest;
  return new Promise((resolve, reject) => {
    const sent = request(url, {
      method,
      headers: { 'User-Agent': 'Branhearth', ...headers, Connection: 'close' },
      lookup: pinned,
      agent: false,
      ...(trust === undefined ? {} : { ca: trust }),
    });
    const timer = setTimeout(() => sent.destroy(noAnswerWithin(timeoutMs)), timeoutMs);
    sent.once('close', () => clearTimeout(timer));
    sent.once('error', reject);
    sent.once('response', (answer) => {
      const chunks: Buffer[] = [];
      let bytes = 0;
      const finish = () => {
        const { statusCode: status = 0, headers: got } = answer;
        resolve({ status, headers: got, body: Buffer.concat(chunks).toString('utf8').slice(0, mostAnswerBytes) });
        sent.destroy();
      };
      answer.on('data', (chunk: Buffer) => {
        chunks.push(chunk);
        bytes += chunk.length;
        if (bytes > mostAnswerBytes) finish(); // the rest of a long answer is of no use
      });
      answer.once('end', finish);
      answer.once('error', reject);
    });
    sent.end(body);
  });
}
