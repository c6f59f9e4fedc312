import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AuthRules, createAuthPolicy, isLoopbackAddress } from '../../ingest/auth/auth-policy.ts';
import { createConnectionAttempts } from '../../ingest/auth/connection-attempts.ts';
import { createPace } from '../../ingest/embedded-broker/pace.ts';
import type { KnownKey } from '../../shared/probe-key.ts';

const clock = { nowMs: () => Date.UTC(2031, 3, 5), speed: 1 };
const here = '127.0.0.1';
const elsewhere = '203.0.113.7';
const key: KnownKey = {
  id: 'key-a',
  secretSha256: createHash('sha256').update('right').digest('hex'),
  site: 'saltmere-yard',
  probe: 'p1',
  foreign: [],
  hears: 'own',
};

function open(rules: Partial<AuthRules>, keys: KnownKey[] = [], revoked: string[] = []) {
  const authPolicy = createAuthPolicy({ clock, root: 'piles', rules });
  authPolicy.setKeys(keys, revoked);
  return authPolicy;
}

function outcome(
  rules: Partial<AuthRules>,
  keys: KnownKey[],
  revoked: string[],
  address: string,
  name?: string,
  secret?: string,
) {
  const password = secret === undefined ? undefined : Buffer.from(secret);
  const admission = open(rules, keys, revoked).admit({ address, username: name, password });
  if ('refused' in admission) return admission.refused;
  return admission.keyId ?? 'without a key';
}

const strict = { everyProbeNeedsAKey: true };
const trusting = { networkIsTrusted: true };
const rows: [
  string,
  Partial<AuthRules>,
  KnownKey[],
  string[],
  string,
  string | undefined,
  string | undefined,
  string,
][] = [
  // what                                   rules    keys    revoked     from       name     secret   outcome
  ['this machine, nothing set up', {}, [], [], here, undefined, undefined, 'without a key'],
  ['this machine with a user name, no key was ever made', {}, [], [], here, 'anyone', 'x', 'without a key'],
  ['another machine, nothing set up', {}, [], [], elsewhere, undefined, undefined, 'no-key'],
  ['another machine on a trusted network', trusting, [], [], elsewhere, undefined, undefined, 'without a key'],
  ['this machine when every probe needs a key', strict, [key], [], here, undefined, undefined, 'no-key'],
  [
    'a trusted network when every probe needs a key',
    { ...strict, ...trusting },
    [key],
    [],
    elsewhere,
    undefined,
    undefined,
    'no-key',
  ],
  ['the right key from another machine', {}, [key], [], elsewhere, 'key-a', 'right', 'key-a'],
  ['the right key from this machine', {}, [key], [], here, 'key-a', 'right', 'key-a'],
  ['a wrong secret', {}, [key], [], elsewhere, 'key-a', 'wrong', 'wrong-secret'],
  ['a wrong secret from this machine', {}, [key], [], here, 'key-a', 'wrong', 'wrong-secret'],
  ['a wrong secret on a trusted network', trusting, [key], [], elsewhere, 'key-a', 'wrong', 'wrong-secret'],
  ['no secret', {}, [key], [], elsewhere, 'key-a', undefined, 'wrong-secret'],
  ['an unknown key', {}, [key], [], elsewhere, 'key-b', 'right', 'unknown-key'],
  ['an unknown key from this machine', {}, [key], [], here, 'key-b', 'right', 'unknown-key'],
  ['a revoked key', {}, [], ['key-a'], elsewhere, 'key-a', 'right', 'revoked-key'],
  ['a revoked key from this machine', {}, [], ['key-a'], here, 'key-a', 'right', 'revoked-key'],
  ['an empty user name from this machine', {}, [key], [], here, '', undefined, 'without a key'],
];
for (const [what, rules, keys, revoked, from, name, secret, expected] of rows) {
  test(`the policy on ${what}: ${expected}`, () => {
    expect(outcome(rules, keys, revoked, from, name, secret)).toBe(expected);
  });
}

describe('mayStay()', () => {
  test('a revoked key may not stay, another one may, also when the list was read anew', () => {
    const other = { ...key, id: 'key-b' };
    const authPolicy = open({}, [key, other]);
    const principals = [key, other].map(({ id }) =>
      authPolicy.admit({ address: elsewhere, username: id, password: Buffer.from('right') }),
    );
    authPolicy.setKeys([{ ...other }], ['key-a']);
    expect(principals.map((one) => 'keyId' in one && 'rights' in one && authPolicy.mayStay(one, elsewhere))).toEqual([
      false,
      true,
    ]);
  });

  test('one without a key may stay until every probe needs one', () => {
    const authPolicy = open({});
    const neighbour = authPolicy.admit({ address: here, username: undefined, password: undefined });
    if ('refused' in neighbour) throw new Error('was refused');
    expect(authPolicy.mayStay(neighbour, here)).toBe(true);
    authPolicy.setEveryProbeNeedsAKey(true);
    expect(authPolicy.mayStay(neighbour, here)).toBe(false);
  });
});

test('isLoopbackAddress() knows this machine in every form a socket tells', () => {
  const told = [
    '127.0.0.1',
    '127.8.9.1',
    '::1',
    '::ffff:127.0.0.1',
    '10.0.0.4',
    '::ffff:10.0.0.4',
    '::',
    'unknown',
    '127.0.0.1.example',
  ];
  expect(told.map(isLoopbackAddress)).toEqual([true, true, true, true, false, false, false, false, false]);
});

describe('connection attempts', () => {
  const attempt = { address: elsewhere, clientId: 'probe-1', keyId: 'key-a', reason: 'wrong-secret' } as const;

  test('counts the same attempt on one line, the last one first', () => {
    const connectionAttempts = createConnectionAttempts(clock);
    connectionAttempts.count(attempt);
    connectionAttempts.count({ ...attempt, clientId: 'probe-2' });
    connectionAttempts.count(attempt);
    expect(connectionAttempts.lines().map(({ clientId, count }) => [clientId, count])).toEqual([
      ['probe-1', 2],
      ['probe-2', 1],
    ]);
    expect(connectionAttempts.totals()['wrong-secret']).toBe(3);
  });

  test('slows an address down after five wrong tries, ever more, up to 10 s, and no other', () => {
    const connectionAttempts = createConnectionAttempts(clock);
    const waits = Array.from({ length: 14 }, () => {
      connectionAttempts.count(attempt);
      return connectionAttempts.waitMs(elsewhere);
    });
    expect(waits).toEqual([0, 0, 0, 0, 0, 250, 500, 1_000, 2_000, 4_000, 8_000, 10_000, 10_000, 10_000]);
    expect(connectionAttempts.waitMs('203.0.113.8')).toBe(0);
  });

  test('somebody without any credential guesses nothing and is not slowed', () => {
    const connectionAttempts = createConnectionAttempts(clock);
    for (let time = 0; time < 20; time += 1) connectionAttempts.count({ ...attempt, keyId: null, reason: 'no-key' });
    expect(connectionAttempts.waitMs(elsewhere)).toBe(0);
  });

  test('keeps at most 200 lines and shows no control characters, however many try', () => {
    const connectionAttempts = createConnectionAttempts(clock);
    for (let time = 0; time < 5_000; time += 1) {
      connectionAttempts.count({ ...attempt, address: `203.0.113.${time}`, clientId: `\u0007${'x'.repeat(5_000)}` });
    }
    expect(connectionAttempts.lines()).toHaveLength(200);
    expect(connectionAttempts.lines()[0]?.clientId).toMatch(/^\\u0007x{194}$/);
  });
});

describe('a pace', () => {
  test('lets a burst through, then as much as fits its rate', () => {
    const pace = createPace(10, 100, 0);
    pace.spend(99);
    expect(pace.waitMs(0)).toBe(0);
    pace.spend(1);
    expect(pace.waitMs(0)).toBe(100);
    expect(pace.waitMs(99)).toBe(1);
    expect(pace.waitMs(100)).toBe(0);
  });

  test('never lets more through than burst and rate allow, however it is asked', () => {
    const steps = fc.array(fc.tuple(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 1, max: 50 })), {
      maxLength: 200,
    });
    fc.assert(
      fc.property(steps, (taken) => {
        const pace = createPace(20, 40, 0);
        let nowMs = 0;
        let through = 0;
        for (const [afterMs, packets] of taken) {
          nowMs += afterMs;
          if (pace.waitMs(nowMs) > 0) continue;
          pace.spend(packets);
          through += packets;
        }
        expect(through).toBeLessThanOrEqual(40 + (20 * nowMs) / 1000 + 50); // the last chunk may overdraw
      }),
      { seed: 20310405 },
    );
  });
});
