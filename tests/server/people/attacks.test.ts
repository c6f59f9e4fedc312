/** Attacks after the OWASP Top Ten and its cheat sheets (CSRF prevention, authentication, session management), against the whole application. */
import { request as rawRequest } from 'node:http';
import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import { Writable } from 'node:stream';
import pino from 'pino';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loggedAddress } from '../../../server/http/log-serializers.ts';
import { countAttempt, slowDown, waitAfterMs } from '../../../server/services/people/slow-down.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import {
  cookiesOf,
  freshAddress,
  join,
  passwordOf,
  settlePeople,
  signIn,
  type TestPeople,
} from '../../helpers/people.ts';
import { networkKeyRows } from './network-rows.ts';

let one: TestInstallation;
let remove: () => Promise<void>;
let people: TestPeople;
let machineMs = Date.UTC(2031, 4, 1);
beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  one = await openTestInstallation(
    folder.dataDir,
    {},
    undefined,
    { pagesDir: new URL('../../../web', import.meta.url).pathname },
    () => machineMs,
  );
  people = await settlePeople(one);
  await one.app.listen({ host: '127.0.0.1', port: 0 });
});
afterAll(async () => {
  await one.close();
  await remove();
});
const port = () => (one.app.server.address() as AddressInfo).port;

describe('a change that another site asks for', () => {
  const cookie = () => people.owner.cookie ?? '';
  const rows: [string, Record<string, string>, number][] = [
    ['from a page of ours, as a browser of today says it', { 'sec-fetch-site': 'same-origin' }, 201],
    ['from a page of ours, by its origin', { origin: 'http://localhost' }, 201],
    ['from another site', { 'sec-fetch-site': 'cross-site', origin: 'https://elsewhere.example' }, 403],
    [
      'from a neighbour under the same domain',
      { 'sec-fetch-site': 'same-site', origin: 'http://other.localhost' },
      403,
    ],
    ['from another site, by a browser that says only its origin', { origin: 'https://elsewhere.example' }, 403],
    ['from a sandboxed frame', { origin: 'null' }, 403],
    ['that says nothing of where it comes from', {}, 403],
  ];
  for (const [what, headers, status] of rows) {
    test(`${what}, with the cookie of an owner: ${status}`, async () => {
      const answer = await one.app.inject({
        method: 'POST',
        url: '/api/sites',
        headers: { cookie: cookie(), ...headers },
        payload: { name: `Yard ${what}` },
      });
      expect(answer.statusCode).toBe(status);
    });
  }

  test('does not sign anybody in either', async () => {
    const headers = { origin: 'https://elsewhere.example' };
    const payload = { name: 'Olive', password: passwordOf('Olive') };
    const answer = await one.app.inject({
      method: 'POST',
      url: '/api/session',
      headers,
      payload,
      remoteAddress: freshAddress(),
    });
    expect([answer.statusCode, answer.cookies]).toEqual([403, []]);
  });

  test('cannot be a plain form: its kinds of body are not read', async () => {
    for (const type of ['application/x-www-form-urlencoded', 'text/plain', 'multipart/form-data; boundary=x']) {
      const headers = { ...people.owner, 'content-type': type };
      expect(
        (await one.app.inject({ method: 'POST', url: '/api/sites', headers, payload: 'name=Yard' })).statusCode,
      ).toBe(415);
    }
  });

  test('is not answered to another site’s script: no header lets one read', async () => {
    const headers = { ...people.owner, origin: 'https://elsewhere.example' };
    const answer = await one.app.inject({ url: '/api/piles', headers });
    expect(Object.keys(answer.headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('guessing', () => {
  const guess = (name: string, remoteAddress: string, password = 'not the password at all', cookie = '') =>
    one.app.inject({
      method: 'POST',
      url: '/api/session',
      payload: { name, password },
      remoteAddress,
      headers: cookie ? { cookie } : {},
    });

  test('waits double each time from the free tries on, up to a quarter of an hour', () => {
    const { freeForPair: free, firstWaitMs, longestWaitMs } = slowDown;
    expect([free - 1, free, free + 1, free + 2, 60].map((failures) => waitAfterMs(failures, free))).toEqual([
      0,
      firstWaitMs,
      firstWaitMs * 2,
      firstWaitMs * 4,
      longestWaitMs,
    ]);
  });

  test('from one address is slowed down, with the right password too, and says for how long; later it goes on', async () => {
    const address = freshAddress();
    const statuses: number[] = [];
    for (let count = 0; count < 6; count += 1) statuses.push((await guess('Kim', address)).statusCode);
    expect(statuses).toEqual([401, 401, 401, 401, 401, 429]);
    const right = await guess('Kim', address, passwordOf('Kim'));
    expect([right.statusCode, right.headers['retry-after']]).toEqual([429, '5']);
    machineMs += 5_000;
    expect((await guess('Kim', address, passwordOf('Kim'))).statusCode).toBe(200);
  });

  test('by many strangers keeps the owner out neither on a known device nor on a new one', async () => {
    const known = await signIn(one.app, 'Olive');
    const device = known.split('; ').find((cookie) => cookie.startsWith('branhearth_device')) ?? '';
    const counts = () => countAttempt({ nameKey: 'olive', address: freshAddress(), device: undefined }).counts;
    for (let stranger = 0; stranger < 80; stranger += 1)
      await one.installation.journal.attempts.take(counts(), machineMs, slowDown.quietMs);
    const attacker = freshAddress();
    expect((await guess('Olive', attacker)).statusCode).toBe(401);
    expect((await guess('Olive', attacker)).statusCode).toBe(429);
    expect((await guess('Olive', attacker, passwordOf('Olive'), device)).statusCode).toBe(200);
    expect((await guess('Olive', freshAddress(), passwordOf('Olive'))).statusCode).toBe(200);
  });

  test('with a device cookie of another account, or one that was made up, counts as a stranger’s', async () => {
    const kims =
      (await signIn(one.app, 'Kim')).split('; ').find((cookie) => cookie.startsWith('branhearth_device')) ?? '';
    const address = freshAddress();
    for (let count = 0; count < 5; count += 1) await guess('Vera', address, undefined, kims);
    expect((await guess('Vera', address, undefined, kims)).statusCode).toBe(429);
  });

  test('tells nothing of whether there is such an account', async () => {
    const [known, unknown] = [await guess('Vera', freshAddress()), await guess('Nobody at all', freshAddress())];
    expect([unknown.statusCode, unknown.json<{ detail: string }>().detail]).toEqual([
      known.statusCode,
      known.json<{ detail: string }>().detail,
    ]);
  });

  test('takes wildcards of the database as letters', async () => {
    for (const name of ['%', '_era', "Vera' --", 'Ver%']) {
      expect((await guess(name, freshAddress(), passwordOf('Vera'))).statusCode).toBe(401);
    }
  });

  for (const [address, other, same] of networkKeyRows) {
    test(`${address} and ${other} are ${same ? 'one network' : 'two networks'}`, () => {
      const key = (from: string) => countAttempt({ nameKey: 'x', address: from, device: undefined }).counts[2]?.key;
      expect(key(address) === key(other)).toBe(same);
    });
  }
});

describe('addresses and bodies', () => {
  test('lead out of no folder: pages, photos', async () => {
    const tries = [
      '/../package.json',
      '/..%2f..%2fpackage.json',
      '/assets/..%2f..%2fpackage.json',
      '/%2e%2e/%2e%2e/etc/passwd',
      '/....//etc/passwd',
      '/\\..\\package.json',
    ];
    for (const path of tries) {
      const status = await new Promise<[number, string]>((resolve, reject) => {
        // By hand: a client of the library would tidy the path first.
        rawRequest({ port: port(), path, headers: people.owner }, (answer) => {
          let text = '';
          answer
            .on('data', (chunk) => {
              text += chunk;
            })
            .on('end', () => resolve([answer.statusCode ?? 0, text]));
        })
          .on('error', reject)
          .end();
      });
      expect([path, status[1].includes('"branhearth"'), status[1].includes('root:')]).toEqual([path, false, false]);
    }
    for (const id of ['..%2f..%2fjournal.db', '....journal', '%2fetc%2fpasswd']) {
      expect([400, 404]).toContain(
        (await one.app.inject({ url: `/api/photos/${id}`, headers: people.viewer })).statusCode,
      );
    }
  });

  test('larger than allowed are refused, before and after signing in', async () => {
    const payload = JSON.stringify({ name: 'x'.repeat(1_100_000) });
    const send = (headers: Record<string, string>, url: string) =>
      one.app.inject({
        method: 'POST',
        url,
        headers: { ...headers, 'content-type': 'application/json' },
        payload,
        remoteAddress: freshAddress(),
      });
    expect((await send(people.owner, '/api/sites')).statusCode).toBe(413);
    expect((await send({}, '/api/session')).statusCode).toBe(413);
  });

  test('of a kind that another route reads are refused, and change nothing', async () => {
    const payload = Buffer.alloc(1_100_000, '{');
    const send = (method: 'POST' | 'PUT', url: string, type: string, headers: Record<string, string>) =>
      one.app.inject({
        method,
        url,
        headers: { ...headers, 'content-type': type },
        payload,
        remoteAddress: freshAddress(),
      });
    const chosen = { fromSeverity: 'danger' };
    await one.app.inject({ method: 'PUT', url: '/api/notifications', headers: people.viewer, payload: chosen });
    for (const type of ['image/jpeg', 'image/png', 'image/webp']) {
      expect((await send('POST', '/api/session', type, {})).statusCode).toBe(415);
      expect((await send('PUT', '/api/notifications', type, people.viewer)).statusCode).toBe(415);
    }
    const kept = await one.app.inject({ url: '/api/notifications', headers: people.viewer });
    expect(kept.json()).toMatchObject({ preferences: chosen });
  });

  test('with what spoils prototypes are refused', async () => {
    const headers = { ...people.owner, 'content-type': 'application/json' };
    const answer = await one.app.inject({
      method: 'POST',
      url: '/api/sites',
      headers,
      payload: '{"__proto__":{"role":"owner"},"name":"x"}',
    });
    expect(answer.statusCode).toBe(400);
  });

  test('cannot write headers of an answer: a name with line breaks stays within the file name', async () => {
    await one.app.inject({
      method: 'POST',
      url: '/api/sites',
      headers: people.owner,
      payload: { name: 'Header yard' },
    });
    const name = 'Bay"; filename=evil.exe\r\nSet-Cookie: branhearth_session=planted';
    await one.app.inject({
      method: 'POST',
      url: '/api/piles',
      headers: people.owner,
      payload: { id: 'header-bay', site: 'header-yard', name, stage: 'bran' },
    });
    const { batches } = (await one.app.inject({ url: '/api/batches', headers: people.viewer })).json<{
      batches: { id: string }[];
    }>();
    expect(batches.length).toBeGreaterThan(0);
    for (const { id } of batches) {
      const pdf = await one.app.inject({ url: `/api/batches/${id}/record.pdf`, headers: people.viewer });
      expect(pdf.headers['set-cookie']).toBeUndefined();
      expect(pdf.headers['content-disposition']).toMatch(/^attachment; filename="[a-z0-9.-]+"$/i);
    }
  });

  test('a request split into two by its own headers is refused', async () => {
    const answer = await new Promise<string>((resolve) => {
      const line = connect(port(), '127.0.0.1', () =>
        line.write(
          'POST /api/sites HTTP/1.1\r\nHost: x\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /api/piles HTTP/1.1\r\nHost: x\r\n\r\n',
        ),
      );
      let text = '';
      line
        .on('data', (chunk) => {
          text += chunk;
        })
        .on('close', () => resolve(text));
      setTimeout(() => line.destroy(), 2_000);
    });
    expect(answer).toMatch(/^HTTP\/1.1 400/);
  });
});

describe('what must not be known', () => {
  test('no secret of an address is in the log', async () => {
    let written = '';
    const folder = await makeDataDir();
    const log = pino(
      { level: 'trace' },
      new Writable({
        write: (chunk, _encoding, done) => {
          written += chunk;
          done();
        },
      }),
    );
    const logged = await openTestInstallation(folder.dataDir, {}, undefined, {}, undefined, log);
    const secret = 'S'.repeat(43);
    const urls = [
      `/api/piles?token=${secret}`,
      `/calendar/${secret}.ics`,
      `/acknowledge/${secret}`,
      `/x/${secret}`,
      `/api/photos/${secret}`,
    ];
    for (const url of urls)
      await logged.app.inject({
        url,
        headers: { authorization: `Bearer ${secret}`, cookie: `branhearth_session=${secret}` },
      });
    await logged.app.inject({ method: 'POST', url: '/api/links/look', payload: { secret } });
    await logged.app.inject({
      method: 'POST',
      url: '/api/session',
      payload: { name: secret, password: secret },
      remoteAddress: freshAddress(),
    });
    await logged.close();
    await folder.remove();
    expect(written).toContain('"url":"/api/piles"');
    expect(written).not.toContain(secret);
  });

  test('loggedAddress() keeps what is needed to find a fault', () => {
    expect(loggedAddress('/api/piles/bay-one/series?from=1')).toBe('/api/piles/bay-one/series');
    expect(loggedAddress('/calendar/short.ics')).toBe('/calendar/…');
  });

  test('an error tells nobody what is inside', async () => {
    const { hasOwner } = one.installation.journal.people;
    Object.assign(one.installation.journal.people, {
      hasOwner: async () => {
        throw new Error('inside /srv/journal.db');
      },
    });
    const answer = await one.app.inject({ url: '/api/session', headers: people.viewer });
    Object.assign(one.installation.journal.people, { hasOwner });
    expect([answer.statusCode, answer.body.includes('inside')]).toEqual([500, false]);
  });

  test('a session that ended in another process is over within seconds, and its live line with it', async () => {
    const cookie =
      (await signIn(one.app, 'Vera')).split('; ').find((part) => part.startsWith('branhearth_session')) ?? '';
    const line = await fetch(`http://127.0.0.1:${port()}/api/live`, { headers: { cookie } });
    expect(line.status).toBe(200);
    const { personId } = (await one.installation.journal.sessions.list()).find(
      ({ personId }) => personId.length > 0,
    ) ?? {
      personId: '',
    };
    expect(personId).not.toBe('');
    // As another process would: in the journal, past everything this one remembers.
    for (const session of await one.installation.journal.sessions.list())
      await one.installation.journal.sessions.end({ digest: session.digest });
    machineMs += 3_000;
    expect((await one.app.inject({ url: '/api/piles', headers: { cookie } })).statusCode).toBe(401);
    const reader = line.body?.getReader();
    while (reader && !(await reader.read()).done);
  });
});

test('cookiesOf() of the helpers and join() keep to what a browser does', async () => {
  expect(
    cookiesOf({
      cookies: [
        { name: 'a', value: 'b' },
        { name: 'c', value: '', maxAge: 0 },
      ],
    }),
  ).toBe('a=b');
  expect(await join(one, 'Zoe', 'viewer')).toContain('branhearth_session=');
});
