import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createDoor, type DoorRules, isLoopbackAddress } from '../../ingest/auth/auth-policy.ts';
import { createKnocks } from '../../ingest/auth/connection-attempts.ts';
import { createPace } from '../../ingest/embedded-broker/pace.ts';
import type { DoorKey } from '../../shared/probe-key.ts';

const clock = { nowMs: () => Date.UTC(2031, 3, 5), speed: 1 };
const here = '127.0.0.1';
const elsewhere = '203.0.113.7';
const key: DoorKey = {
  id: 'key-a',
  secretSha256: createHash('sha256').update('right').digest('hex'),
  site: 'saltmere-yard',
  probe: 'p1',
  foreign: [],
  hears: 'own',
};

function open(rules: Partial<DoorRules>, keys: DoorKey[] = [], revoked: string[] = []) {
  const door = createDoor({ clock, root: 'piles', rules });
  door.setKeys(keys, revoked);
  return door;
}

function outcome(
  rules: Partial<DoorRules>,
  keys: DoorKey[],
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
  Partial<DoorRules>,
  DoorKey[],
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
  test(`the door on ${what}: ${expected}`, () => {
    expect(outcome(rules, keys, revoked, from, name, secret)).toBe(expected);
  });
}

describe('mayStay()', () => {
  test('a revoked key may not stay, another one may, also when the list was read anew', () => {
    const other = { ...key, id: 'key-b' };
    const door = open({}, [key, other]);
    const speakers = [key, other].map(({ id }) =>
      door.admit({ address: elsewhere, username: id, password: Buffer.from('right') }),
    );
    door.setKeys([{ ...other }], ['key-a']);
    expect(speakers.map((one) => 'keyId' in one && 'rights' in one && door.mayStay(one, elsewhere))).toEqual([
      false,
      true,
    ]);
  });

  test('one without a key may stay until every probe needs one', () => {
    const door = open({});
    const neighbour = door.admit({ address: here, username: undefined, password: undefined });
    if ('refused' in neighbour) throw new Error('was refused');
    expect(door.mayStay(neighbour, here)).toBe(true);
    door.setEveryProbeNeedsAKey(true);
    expect(door.mayStay(neighbour, here)).toBe(false);
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

describe('knocks', () => {
  const knock = { address: elsewhere, clientId: 'probe-1', keyId: 'key-a', reason: 'wrong-secret' } as const;

  test('counts the same knock on one line, the last one first', () => {
    const knocks = createKnocks(clock);
    knocks.count(knock);
    knocks.count({ ...knock, clientId: 'probe-2' });
    knocks.count(knock);
    expect(knocks.lines().map(({ clientId, count }) => [clientId, count])).toEqual([
      ['probe-1', 2],
      ['probe-2', 1],
    ]);
    expect(knocks.totals()['wrong-secret']).toBe(3);
  });

  test('slows an address down after five wrong tries, ever more, up to 10 s, and no other', () => {
    const knocks = createKnocks(clock);
    const waits = Array.from({ length: 14 }, () => {
      knocks.count(knock);
      return knocks.waitMs(elsewhere);
    });
    expect(waits).toEqual([0, 0, 0, 0, 0, 250, 500, 1_000, 2_000, 4_000, 8_000, 10_000, 10_000, 10_000]);
    expect(knocks.waitMs('203.0.113.8')).toBe(0);
  });

  test('somebody without any credential guesses nothing and is not slowed', () => {
    const knocks = createKnocks(clock);
    for (let time = 0; time < 20; time += 1) knocks.count({ ...knock, keyId: null, reason: 'no-key' });
    expect(knocks.waitMs(elsewhere)).toBe(0);
  });

  test('keeps at most 200 lines and shows no control characters, whoever knocks', () => {
    const knocks = createKnocks(clock);
    for (let time = 0; time < 5_000; time += 1) {
      knocks.count({ ...knock, address: `203.0.113.${time}`, clientId: `\u0007${'x'.repeat(5_000)}` });
    }
    expect(knocks.lines()).toHaveLength(200);
    expect(knocks.lines()[0]?.clientId).toMatch(/^\\u0007x{194}$/);
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
