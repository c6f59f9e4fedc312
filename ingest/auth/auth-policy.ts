/**
 * Who may come in at the embedded broker, and as whom.
 *
 * A secret is 160 random bits that we made, so there is nothing to guess from a dictionary and a plain SHA-256 is
 * enough to keep it by; a slow hash would only let whoever tries often enough keep the server from its readings. It
 * never compares secrets in a way whose time tells how much was right, and never takes a secret that a person chose.
 */
import { createHash, timingSafeEqual } from 'node:crypto';
import type { Clock } from '../../shared/clock.ts';
import { isLoopback } from '../../shared/config.ts';
import type { KeyHearing, KnownKey } from '../../shared/probe-key.ts';
import { type ConnectionAttempts, createConnectionAttempts, type RefusedReason } from './connection-attempts.ts';
import { type TopicRights, topicRights } from './topic-rights.ts';

export interface AuthRules {
  /** Also for programs of this machine. */
  readonly everyProbeNeedsAKey: boolean;
  /** The one who set this machine up said that whoever reaches the broker may speak. */
  readonly networkIsTrusted: boolean;
}

/** Somebody who was let in. */
export interface Principal {
  /** null for one without a key. */
  readonly keyId: string | null;
  readonly rights: TopicRights | undefined;
  /** That its key is for; null for one without. */
  readonly site: string | null;
  /** Its key speaks for one probe alone, so it is one device. */
  readonly isOneProbe: boolean;
  readonly hears: KeyHearing;
  /** From another machine, or with a key: then it has a pace to keep. */
  readonly isPaced: boolean;
}

interface Credential {
  readonly address: string;
  readonly username: string | undefined;
  readonly password: Uint8Array | undefined;
}

export type Admission = Principal | { readonly refused: RefusedReason; readonly keyId: string | null };

interface KeySeen {
  readonly connected: number;
  readonly lastAtMs: number;
  readonly address: string;
}

export interface AuthPolicy {
  admit(credential: Credential): Admission;
  /** Whether one who was let in from this address would be again. */
  mayStay(principal: Principal, address: string): boolean;
  setKeys(keys: readonly KnownKey[], revokedIds?: readonly string[]): void;
  setEveryProbeNeedsAKey(needs: boolean): void;
  rules(): AuthRules;
  /** Called after either change, so that the broker parts from those who may not stay. */
  onChange(listener: () => void): void;
  /** A connection of this key began, or ended. */
  sawKey(keyId: string, address: string, change: 1 | -1): void;
  seen(keyId: string): KeySeen | undefined;
  readonly connectionAttempts: ConnectionAttempts;
}

export interface AuthPolicyOptions {
  readonly clock: Clock;
  readonly root: string;
  readonly rules?: Partial<AuthRules>;
}

interface Kept {
  readonly digest: Buffer;
  readonly principal: Principal;
}

export function createAuthPolicy({ clock, root, rules: given = {} }: AuthPolicyOptions): AuthPolicy {
  let rules: AuthRules = { everyProbeNeedsAKey: false, networkIsTrusted: false, ...given };
  let keys = new Map<string, Kept>();
  let revoked: ReadonlySet<string> = new Set();
  const seen = new Map<string, KeySeen>();
  const listeners: (() => void)[] = [];
  const connectionAttempts = createConnectionAttempts(clock);
  const keyless = { keyId: null, rights: undefined, site: null, isOneProbe: false, hears: 'everything' } as const;
  const neighbour: Principal = { ...keyless, isPaced: false };
  const trusted: Principal = { ...keyless, isPaced: true };

  function withoutKey(address: string): Principal | undefined {
    if (rules.everyProbeNeedsAKey) return undefined;
    if (isLoopbackAddress(address)) return neighbour;
    return rules.networkIsTrusted ? trusted : undefined;
  }

  function tell(): void {
    for (const listener of listeners) listener();
  }

  return {
    admit({ address, username, password }) {
      // A user name where no key was ever made cannot be a wrong one; it is as good as none.
      const unnamed = username === undefined || username === '' || (keys.size === 0 && revoked.size === 0);
      if (unnamed) return withoutKey(address) ?? { refused: 'no-key', keyId: null };
      const kept = keys.get(username);
      if (kept !== undefined) return admitByKey(kept, username, password);
      return revoked.has(username)
        ? { refused: 'revoked-key', keyId: username }
        : { refused: 'unknown-key', keyId: null };
    },
    mayStay(principal, address) {
      return principal.keyId === null
        ? withoutKey(address) !== undefined
        : keys.get(principal.keyId)?.principal === principal;
    },
    setKeys(next, revokedIds = []) {
      const before = keys;
      keys = new Map(next.map((key) => [key.id, keptKey(key, before.get(key.id), root)]));
      revoked = new Set(revokedIds);
      tell();
    },
    setEveryProbeNeedsAKey(needs) {
      rules = { ...rules, everyProbeNeedsAKey: needs };
      tell();
    },
    rules: () => rules,
    onChange: (listener) => void listeners.push(listener),
    sawKey(keyId, address, change) {
      const connected = Math.max(0, (seen.get(keyId)?.connected ?? 0) + change);
      seen.set(keyId, { connected, lastAtMs: clock.nowMs(), address });
    },
    seen: (keyId) => seen.get(keyId),
    connectionAttempts,
  };
}

function admitByKey({ digest, principal }: Kept, keyId: string, password: Uint8Array | undefined): Admission {
  const given = createHash('sha256')
    .update(password ?? '')
    .digest();
  return timingSafeEqual(given, digest) ? principal : { refused: 'wrong-secret', keyId };
}

/** A key that did not change keeps its principal, so that its connections stay. */
function keptKey(key: KnownKey, before: Kept | undefined, root: string): Kept {
  const digest = Buffer.from(key.secretSha256, 'hex');
  if (before?.digest.equals(digest)) return before;
  const { id: keyId, site, probe, hears } = key;
  return {
    digest,
    principal: { keyId, rights: topicRights(key, root), site, isOneProbe: probe !== null, hears, isPaced: true },
  };
}

/** An IPv4 address that came in over an IPv6 socket is written ::ffff:127.0.0.1 (RFC 4291 section 2.5.5.2). */
export function isLoopbackAddress(address: string): boolean {
  return isLoopback(address.replace(/^::ffff:/i, ''));
}
