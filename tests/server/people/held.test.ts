/** A stolen phone, a former owner, a dishonest member: what they hold ends when it should, and only then. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { makeLink } from '../../../server/notify/notification-links.ts';
import type { AuditEntry, heldAnswerSchema } from '../../../shared/contracts/people.ts';
import { openNewTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import {
  as,
  cookiesOf,
  freshAddress,
  join,
  makeToken,
  passwordOf,
  settlePeople,
  signIn,
  type TestPeople,
} from '../../helpers/people.ts';
import { makePushBrowser } from '../../helpers/push-browser.ts';
import { message, notice } from '../../shared/store/journal-notifications-contract.ts';

let one: TestInstallation;
let people: TestPeople;
beforeAll(async () => {
  one = await openNewTestInstallation();
  people = await settlePeople(one);
});
afterAll(() => one.closeAndRemove());

type Who = Record<string, string>;
const send = (method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE', url: string, headers: Who, payload?: object) =>
  one.app.inject({ method, url, headers, remoteAddress: freshAddress(), ...(payload && { payload }) });
const status = async (headers: Who) => (await send('GET', '/api/piles', headers)).statusCode;
const idOf = async (name: string) => (await one.installation.journal.people.byNameKey(name.toLowerCase()))?.id ?? '';
const bearer = async (who: Who, scope: 'read' | 'keep' | 'own' = 'read'): Promise<Who> => ({
  authorization: `Bearer ${await makeToken(one.app, who, scope)}`,
});
let phones = 0;
const signUpPhone = async (who: Who) => {
  phones += 1;
  const endpoint = `https://push.example/phone-${phones}`;
  const { keys } = makePushBrowser();
  const answer = await send('POST', '/api/notifications/devices', who, { endpoint, keys, label: `phone ${phones}` });
  expect(answer.statusCode).toBe(201);
  return endpoint;
};
const told = async (endpoint: string) =>
  (await one.installation.journal.notifications.devices.list()).some((device) => device.endpoint === endpoint);
const lastRow = async () =>
  (await send('GET', '/api/audit?limit=1', people.owner)).json<{ entries: AuditEntry[] }>().entries[0];

describe('links of an owner who is one no more', () => {
  const ends: [what: string, act: (id: string) => Promise<unknown>][] = [
    ['demoted', (id) => send('PATCH', `/api/people/${id}`, people.owner, { role: 'viewer' })],
    ['removed', (id) => send('DELETE', `/api/people/${id}`, people.owner)],
  ];
  for (const [what, act] of ends) {
    test(`who was ${what}: neither invitation nor new password lets anybody in, however they were made`, async () => {
      const name = `Former ${what}`;
      const former = as(await join(one, name, 'owner'));
      await join(one, `Friend of ${what}`, 'viewer');
      const made = await Promise.all(
        [former, await bearer(former, 'own')].flatMap((who) => [
          send('POST', '/api/invitations', who, { role: 'owner', days: 30 }),
          idOf(`Friend of ${what}`).then((id) => send('POST', `/api/people/${id}/reset`, who)),
        ]),
      );
      expect(made.map(({ statusCode }) => statusCode)).toEqual([201, 201, 201, 201]);
      await act(await idOf(name));
      for (const answer of made) {
        const secret = new URL(answer.json<{ address: string }>().address).hash.slice(1);
        const password = passwordOf('somebody back again');
        expect((await send('POST', '/api/links/look', {}, { secret })).statusCode).toBe(410);
        expect((await send('POST', '/api/links/use', {}, { secret, name: 'Back Again', password })).statusCode).toBe(
          410,
        );
      }
      expect(await idOf('Back Again')).toBe('');
    });
  }
});

describe('a link in a message by which a warning is acknowledged', () => {
  const ends: [what: string, act: (id: string, who: Who) => Promise<unknown>, status: number][] = [
    ['nothing happened to', async () => undefined, 200],
    ['was demoted to a viewer', (id) => send('PATCH', `/api/people/${id}`, people.owner, { role: 'viewer' }), 404],
    ['was removed', (id) => send('DELETE', `/api/people/${id}`, people.owner), 404],
    ['lost a phone', (id) => send('DELETE', `/api/people/${id}/held`, people.owner), 404],
    [
      'chose a new password',
      (_, who) =>
        send('PUT', '/api/me/password', who, {
          current: passwordOf('Who chose a new password'),
          next: 'thistles under a leaning barn',
        }),
      404,
    ],
  ];
  for (const [what, act, status] of ends) {
    test(`of somebody who ${what}: ${status}`, async () => {
      const name = `Who ${what}`;
      const who = as(await join(one, name, 'keeper'));
      const personId = await idOf(name);
      const secret = await acknowledgingLink(personId, name);
      await act(personId, who);
      const press = await send('POST', `/acknowledge/${secret}`, { accept: 'application/json' });
      expect([press.statusCode, press.json<{ message: string | null }>().message === null]).toEqual([
        status,
        status === 404,
      ]);
    });
  }
});

/** As a message brings it to a person. @returns Its secret. */
async function acknowledgingLink(personId: string, personName: string): Promise<string> {
  const { notifications } = one.installation.journal;
  await notifications.notices.add([notice]);
  return makeLink(notifications, notice, { ...message, personId, personName }, Date.now());
}

describe('a new password', () => {
  test('ends tokens, other sessions, links made and the phones they told; this browser and its device go on', async () => {
    const here = as(await join(one, 'Nora', 'owner'));
    const there = as(await signIn(one.app, 'Nora'));
    const token = await bearer(here, 'own');
    const [mine, stolen, byToken] = [await signUpPhone(here), await signUpPhone(there), await signUpPhone(token)];
    const invitation = (await send('POST', '/api/invitations', there, { role: 'owner', days: 3 })).json<{
      address: string;
    }>();
    const next = 'thistles under a leaning barn';
    const changed = await send('PUT', '/api/me/password', here, { current: passwordOf('Nora'), next });
    expect(changed.statusCode).toBe(204);
    expect(await Promise.all([status(here), status(there), status(token)])).toEqual([401, 401, 401]);
    expect(await status(as(cookiesOf(changed)))).toBe(200);
    expect(await Promise.all([told(mine), told(stolen), told(byToken)])).toEqual([true, false, false]);
    const secret = new URL(invitation.address).hash.slice(1);
    expect((await send('POST', '/api/links/look', {}, { secret })).statusCode).toBe(410);
  });

  test('by a link of an owner ends all', async () => {
    const ida = as(await join(one, 'Ida', 'keeper'));
    const token = await bearer(ida, 'keep');
    const [phone, byToken] = [await signUpPhone(ida), await signUpPhone(token)];
    const reset = await send('POST', `/api/people/${await idOf('Ida')}/reset`, people.owner);
    // Until it is used nothing ends: the link may never arrive.
    expect(await Promise.all([status(ida), status(token)])).toEqual([200, 200]);
    const secret = new URL(reset.json<{ address: string }>().address).hash.slice(1);
    await send('POST', '/api/links/use', {}, { secret, password: 'thistles under a leaning barn' });
    expect(await Promise.all([status(ida), status(token)])).toEqual([401, 401]);
    expect(await Promise.all([told(phone), told(byToken)])).toEqual([false, false]);
  });
});

describe('a token', () => {
  const ask = (who: Who, more: object) => send('POST', '/api/tokens', who, { name: 'x', scope: 'read', ...more });
  test('is made only by who knows the password, however lately they signed in', async () => {
    const fresh = as(await signIn(one.app, 'Kim'));
    expect((await ask(fresh, {})).statusCode).toBe(400);
    const wrong = await ask(fresh, { password: 'not it at all, sorry' });
    expect([wrong.statusCode, wrong.json<{ errors: { pointer: string }[] }>().errors[0]?.pointer]).toEqual([
      422,
      '/password',
    ]);
    expect((await ask(fresh, { password: passwordOf('Kim') })).statusCode).toBe(201);
  });

  test('cannot serve to find the password out: wrong ones are slowed down as at sign-in', async () => {
    await join(one, 'Gus', 'viewer');
    const gus = as((await signIn(one.app, 'Gus')).replace(/branhearth_device=[^;]+/, 'x=y'));
    const remoteAddress = freshAddress();
    const guess = async () =>
      (
        await one.app.inject({
          method: 'POST',
          url: '/api/tokens',
          headers: gus,
          remoteAddress,
          payload: { name: 'x', scope: 'read', password: 'not it at all, sorry' },
        })
      ).statusCode;
    const statuses: number[] = [];
    for (let count = 0; count < 6; count += 1) statuses.push(await guess());
    expect(statuses).toEqual([422, 422, 422, 422, 422, 429]);
  });

  test('takes the device with it that it signed up', async () => {
    const token = await bearer(people.viewer);
    const phone = await signUpPhone(token);
    const id = (await one.installation.journal.tokens.list(await idOf('Vera')))[0]?.id;
    expect((await send('DELETE', `/api/tokens/${id}`, people.viewer)).statusCode).toBe(204);
    expect([await status(token), await told(phone)]).toEqual([401, false]);
  });
});

describe('signing out', () => {
  test('ends the device of that browser whatever the phone does, and no other', async () => {
    const [first, second] = [as(await signIn(one.app, 'Vera')), as(await signIn(one.app, 'Vera'))];
    const [phone, other] = [await signUpPhone(first), await signUpPhone(second)];
    await send('DELETE', '/api/session', first);
    expect([await told(phone), await told(other)]).toEqual([false, true]);
    const session = (await send('GET', '/api/me/sessions', second))
      .json<{ sessions: { id: string; isThis: boolean }[] }>()
      .sessions.find(({ isThis }) => isThis);
    await send('DELETE', `/api/me/sessions/${session?.id}`, as(await signIn(one.app, 'Vera')));
    expect(await told(other)).toBe(false);
  });

  test('a browser in which somebody else signs in no longer tells what was for the one before', async () => {
    const vera = await signIn(one.app, 'Vera');
    const phone = await signUpPhone(as(vera));
    await send('POST', '/api/session', as(vera), { name: 'Kim', password: passwordOf('Kim') });
    expect(await told(phone)).toBe(false);
  });

  test('a browser that says who sits there takes its own device along and ends another’s', async () => {
    const first = as(await signIn(one.app, 'Vera'));
    const endpoint = await signUpPhone(first);
    const here = (who: Who) => send('POST', '/api/notifications/devices/here', who, { endpoint });
    const later = as(await signIn(one.app, 'Vera'));
    expect((await here(later)).json()).toMatchObject({ isSubscribed: true });
    expect(await lastRow()).toMatchObject({ personName: 'Vera', what: 'signed in anew on a device that is notified' });
    await send('DELETE', '/api/session', first);
    expect(await told(endpoint)).toBe(true);
    expect((await here(as(await signIn(one.app, 'Kim')))).json()).toMatchObject({ isSubscribed: false });
    expect(await told(endpoint)).toBe(false);
    expect(await lastRow()).toMatchObject({ personName: 'Kim', subject: expect.stringMatching(/^phone \d+$/) });
  });
});

describe('what an owner sees and ends of somebody else', () => {
  const heldOf = async (name: string) =>
    (await send('GET', `/api/people/${await idOf(name)}/held`, people.owner)).json<z.infer<typeof heldAnswerSchema>>();
  test('is all they hold, one by one, each with its row', async () => {
    const lars = as(await join(one, 'Lars', 'keeper'));
    const token = await bearer(lars, 'keep');
    const phone = await signUpPhone(lars);
    const id = await idOf('Lars');
    const { sessions, tokens, devices } = await heldOf('Lars');
    expect([sessions.length, tokens.length, devices.length]).toEqual([1, 1, 1]);
    expect(devices[0]).toMatchObject({ by: 'session', label: expect.stringMatching(/^phone/) });
    expect(JSON.stringify(devices)).not.toContain('push.example');
    const end = async (kind: string, item: string | undefined) =>
      (await send('DELETE', `/api/people/${id}/${kind}/${item}`, people.owner)).statusCode;
    expect(await end('devices', devices[0]?.id)).toBe(204);
    expect(await told(phone)).toBe(false);
    expect(await lastRow()).toMatchObject({ what: 'removed a device of a person from notifications', subject: 'Lars' });
    expect(await end('tokens', tokens[0]?.id)).toBe(204);
    expect([await status(token), (await lastRow())?.what]).toEqual([401, 'revoked an API token of a person']);
    expect(await end('sessions', sessions[0]?.id)).toBe(204);
    expect([await status(lars), (await lastRow())?.what]).toEqual([401, 'ended a session of a person']);
    for (const kind of ['devices', 'tokens', 'sessions']) expect(await end(kind, 'no-such')).toBe(404);
  });

  test('cannot be ended by the id of what somebody else holds', async () => {
    const kims = (await heldOf('Kim')).sessions[0]?.id;
    expect((await send('DELETE', `/api/people/${await idOf('Vera')}/sessions/${kims}`, people.owner)).statusCode).toBe(
      404,
    );
    expect((await heldOf('Kim')).sessions.some(({ id }) => id === kims)).toBe(true);
  });

  test('all at once, with the calendar address; they may sign in again', async () => {
    const mia = as(await join(one, 'Mia', 'owner'));
    const token = await bearer(mia, 'own');
    const phone = await signUpPhone(mia);
    const calendar = (await send('GET', '/api/calendar', mia)).json<{ address: string }>().address;
    const path = new URL(calendar, 'http://x').pathname;
    expect((await send('GET', path, {})).statusCode).toBe(200);
    const invitation = await send('POST', '/api/invitations', mia, { role: 'owner', days: 3 });
    const answer = await send('DELETE', `/api/people/${await idOf('Mia')}/held`, people.owner);
    expect(answer.json()).toEqual({ sessions: 1, tokens: 1, devices: 1 });
    expect(await lastRow()).toMatchObject({
      what: 'ended all that a person holds',
      subject: 'Mia',
      before: { held: ['sessions', 'tokens', 'devices'].map((what) => ({ what, count: 1 })) },
    });
    expect([await status(mia), await status(token), await told(phone)]).toEqual([401, 401, false]);
    expect((await send('GET', path, {})).statusCode).toBe(404);
    const secret = new URL(invitation.json<{ address: string }>().address).hash.slice(1);
    expect((await send('POST', '/api/links/look', {}, { secret })).statusCode).toBe(410);
    expect(await status(as(await signIn(one.app, 'Mia')))).toBe(200);
  });

  test('a session that ran out by itself leaves its device, told as that: nobody shall miss a warning', async () => {
    const eli = as(await join(one, 'Eli', 'viewer'));
    await signUpPhone(eli);
    const [session] = await one.installation.journal.sessions.list(await idOf('Eli'));
    await one.installation.journal.sessions.cleanUp(session?.endsAtMs ?? 0, 0);
    // The owner’s ran out with it.
    people = { ...people, owner: as(await signIn(one.app, 'Olive')) };
    expect((await heldOf('Eli')).devices).toMatchObject([{ by: 'over' }]);
    await send('DELETE', `/api/people/${await idOf('Eli')}/held`, people.owner);
    expect((await heldOf('Eli')).devices).toEqual([]);
  });
});
