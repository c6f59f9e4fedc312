import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openNewTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import {
  as,
  cookiesOf,
  freshAddress,
  fromOwnPage,
  join,
  passwordOf,
  settlePeople,
  signIn,
  type TestPeople,
} from '../../helpers/people.ts';

let one: TestInstallation;
let people: TestPeople;
let machineMs = Date.UTC(2031, 4, 1);
const dayMs = 86_400_000;
beforeAll(async () => {
  one = await openNewTestInstallation({}, undefined, {}, () => machineMs);
});
afterAll(() => one.closeAndRemove());

const post = (url: string, payload: object, headers: Record<string, string> = {}) =>
  one.app.inject({ method: 'POST', url, payload, headers, remoteAddress: freshAddress() });
const get = (url: string, headers: Record<string, string> = {}) =>
  one.app.inject({ url, headers, remoteAddress: freshAddress() });
const secretOf = (way: string | undefined) => way?.split('#')[1] ?? '';

describe('before anybody is set up', () => {
  test('this machine acts as owner, and nobody else comes in', async () => {
    const here = await one.app.inject({ url: '/api/session' });
    expect(here.json()).toEqual({
      person: { id: 'here', name: 'This machine', role: 'owner', via: 'here' },
      hasOwner: false,
      hasToken: false,
    });
    expect((await get('/api/session')).json()).toMatchObject({ person: null });
    expect((await get('/api/piles')).statusCode).toBe(403);
  });

  test('each start gives a link of its own, kept as its digest only and good for 24 hours', async () => {
    const [first, second] = [await one.installation.people.links.setup(), await one.installation.people.links.setup()];
    expect(first).toMatch(/^\/setup#[A-Za-z0-9_-]{43}$/);
    expect(second).not.toBe(first);
    const kept = JSON.stringify(await one.installation.journal.links.open(machineMs));
    expect(kept).not.toContain(secretOf(first));
    const look = (await post('/api/links/look', { secret: secretOf(first) })).json<{ endsAt: string }>();
    expect(look).toMatchObject({ kind: 'setup', role: 'owner', name: null });
    expect(Date.parse(look.endsAt)).toBe(machineMs + dayMs);
    machineMs += dayMs;
    expect((await post('/api/links/look', { secret: secretOf(first) })).statusCode).toBe(410);
    machineMs -= dayMs;
  });

  const refused: [string, object, number, string][] = [
    ['a link that never was', { secret: 'x'.repeat(43), name: 'Eve', password: passwordOf('Eve') }, 410, ''],
    ['a link cut short', { secret: 'x'.repeat(42), name: 'Eve', password: passwordOf('Eve') }, 400, '/secret'],
  ];
  for (const [what, payload, status, pointer] of refused) {
    test(`${what} is answered with ${status}`, async () => {
      const answer = await post('/api/links/use', payload);
      expect(answer.statusCode).toBe(status);
      expect(answer.json<{ errors?: { pointer: string }[] }>().errors?.[0]?.pointer ?? '').toBe(pointer);
    });
  }

  test('a weak password and a name that cannot be seen are refused, and leave the link as it was', async () => {
    const secret = secretOf(await one.installation.people.links.setup());
    const weak = await post('/api/links/use', { secret, name: 'Olive', password: 'Password1234!' });
    expect([weak.statusCode, weak.json<{ errors: { pointer: string }[] }>().errors[0]?.pointer]).toEqual([
      422,
      '/password',
    ]);
    const named = await post('/api/links/use', { secret, name: 'olive-2031', password: 'Olive-2031-x' });
    expect(named.statusCode).toBe(422);
    const unseen = await post('/api/links/use', { secret, name: 'Ol\u200bive', password: passwordOf('Olive') });
    expect(unseen.statusCode).toBe(400);
    expect((await post('/api/links/look', { secret })).statusCode).toBe(200);
  });
});

describe('once there is an owner', () => {
  beforeAll(async () => {
    people = await settlePeople(one);
  });

  test('this machine is nobody any more, and every other link of a start is spent', async () => {
    expect((await one.app.inject({ url: '/api/piles' })).statusCode).toBe(401);
    expect(await one.installation.people.links.setup()).toBeUndefined();
    expect((await get('/api/session', people.owner)).json()).toMatchObject({
      person: { name: 'Olive', role: 'owner', via: 'session' },
      hasOwner: true,
    });
  });

  test('an invitation is told once, counts as often, and gives its role', async () => {
    const made = await post('/api/invitations', { role: 'keeper', days: 2 }, people.owner);
    expect(made.statusCode).toBe(201);
    expect(made.headers['cache-control']).toBe('no-store');
    const { address, endsAt } = made.json<{ address: string; endsAt: string }>();
    expect(new URL(address).pathname).toBe('/invitation');
    expect(Date.parse(endsAt)).toBe(machineMs + 2 * dayMs);
    const listed = (await get('/api/invitations', people.owner)).body;
    expect(listed).not.toContain(secretOf(address));
    const use = { secret: secretOf(address), name: 'Ned', password: passwordOf('Ned') };
    const joined = await post('/api/links/use', use);
    expect(joined.json()).toMatchObject({ person: { name: 'Ned', role: 'keeper' } });
    const again = await post('/api/links/use', { ...use, name: 'Nils' });
    expect([again.statusCode, again.json<{ detail: string }>().detail]).toEqual([
      410,
      'This link was used already, has run out, was taken back, or whoever made it may no longer invite. Ask for a new one.',
    ]);
  });

  test('an invitation that was taken back or has run out lets nobody in; a name that is taken is refused', async () => {
    const invite = async (days: number) =>
      (await post('/api/invitations', { role: 'viewer', days }, people.owner)).json<{ id: string; address: string }>();
    const [back, late, good] = [await invite(1), await invite(1), await invite(9)];
    const use = ({ address }: { address: string }, name: string) =>
      post('/api/links/use', { secret: secretOf(address), name, password: passwordOf(name) });
    const gone = await one.app.inject({ method: 'DELETE', url: `/api/invitations/${back.id}`, headers: people.owner });
    expect(gone.statusCode).toBe(204);
    expect((await use(back, 'Ida')).statusCode).toBe(410);
    machineMs += dayMs;
    expect((await use(late, 'Ida')).statusCode).toBe(410);
    const taken = await use(good, '  VERA ');
    expect([taken.statusCode, taken.json<{ errors: { pointer: string }[] }>().errors[0]?.pointer]).toEqual([
      409,
      '/name',
    ]);
    expect((await use(good, 'Ida')).statusCode).toBe(200);
    machineMs -= dayMs;
  });

  test('an owner lets somebody choose a new password by a link, which ends what was open and is worth nothing then', async () => {
    const before = as(await join(one, 'Rob', 'keeper'));
    const rob = (await one.installation.journal.people.byNameKey('rob'))?.id;
    const made = await post(`/api/people/${rob}/reset`, {}, people.owner);
    const secret = secretOf(made.json<{ address: string }>().address);
    expect((await post('/api/links/look', { secret })).json()).toMatchObject({ kind: 'reset', name: 'Rob' });
    const next = 'thistles under a leaning barn';
    const used = await post('/api/links/use', { secret, password: next, name: 'Somebody else' });
    expect(used.json()).toMatchObject({ person: { name: 'Rob', role: 'keeper' } });
    expect((await get('/api/piles', before)).statusCode).toBe(401);
    expect((await get('/api/piles', as(cookiesOf(used)))).statusCode).toBe(200);
    expect((await post('/api/links/use', { secret, password: next })).statusCode).toBe(410);
    expect((await post('/api/session', { name: 'Rob', password: passwordOf('Rob') })).statusCode).toBe(401);
    expect((await post('/api/session', { name: 'rob ', password: next })).statusCode).toBe(200);
  });

  test('the last owner cannot be demoted or removed', async () => {
    const olive = (await one.installation.journal.people.byNameKey('olive'))?.id;
    const change = {
      method: 'PATCH',
      url: `/api/people/${olive}`,
      headers: people.owner,
      payload: { role: 'keeper' },
    } as const;
    expect((await one.app.inject(change)).statusCode).toBe(409);
    const removed = await one.app.inject({ method: 'DELETE', url: `/api/people/${olive}`, headers: people.owner });
    expect([removed.statusCode, removed.json<{ detail: string }>().detail]).toEqual([
      409,
      'There must be an owner, and this is the last one: make somebody else an owner first.',
    ]);
  });

  test('whoever was removed is out at once, with their tokens', async () => {
    const tom = as(await join(one, 'Tom', 'keeper'));
    const token = await post('/api/tokens', { name: 'script', scope: 'read', password: passwordOf('Tom') }, tom);
    const bearer = { authorization: `Bearer ${token.json<{ secret: string }>().secret}` };
    expect((await get('/api/piles', bearer)).statusCode).toBe(200);
    const id = (await one.installation.journal.people.byNameKey('tom'))?.id;
    await one.app.inject({ method: 'DELETE', url: `/api/people/${id}`, headers: people.owner });
    expect([(await get('/api/piles', tom)).statusCode, (await get('/api/piles', bearer)).statusCode]).toEqual([
      401, 401,
    ]);
  });
});

describe('a session', () => {
  const setCookies = (answer: Awaited<ReturnType<typeof post>>) => [answer.headers['set-cookie'] ?? []].flat();

  test('is a cookie that no script reads and no other site sends; over TLS it is bound to this host', async () => {
    const plain = setCookies(await post('/api/session', { name: 'Vera', password: passwordOf('Vera') }));
    expect(plain).toHaveLength(2);
    for (const cookie of plain)
      expect(cookie).toMatch(/^branhearth_(session|device)=[^;]+; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Lax$/);
  });

  test('gets a new id at sign-in, whatever the browser came with, and the old one ends', async () => {
    const planted = { cookie: `branhearth_session=${'a'.repeat(43)}`, ...fromOwnPage };
    const answer = await post('/api/session', { name: 'Vera', password: passwordOf('Vera') }, planted);
    const first = cookiesOf(answer);
    expect(first).not.toContain('a'.repeat(43));
    expect((await get('/api/piles', planted)).statusCode).toBe(401);
    const second = cookiesOf(await post('/api/session', { name: 'Vera', password: passwordOf('Vera') }, as(first)));
    expect(second).not.toBe(first);
    expect([(await get('/api/piles', as(first))).statusCode, (await get('/api/piles', as(second))).statusCode]).toEqual(
      [401, 200],
    );
  });

  test('gets a new id with a new password, and the others end', async () => {
    const [here, there] = [as(await join(one, 'Una', 'viewer')), as(await signIn(one.app, 'Una'))];
    const change = (payload: object) =>
      one.app.inject({ method: 'PUT', url: '/api/me/password', headers: here, payload, remoteAddress: freshAddress() });
    const wrong = await change({ current: 'not it at all, sorry', next: 'thistles under a leaning barn' });
    expect([wrong.statusCode, wrong.json<{ errors: { pointer: string }[] }>().errors[0]?.pointer]).toEqual([
      422,
      '/current',
    ]);
    const weak = await change({ current: passwordOf('Una'), next: 'una-una-2031' });
    expect([weak.statusCode, weak.json<{ errors: { pointer: string }[] }>().errors[0]?.pointer]).toEqual([
      422,
      '/next',
    ]);
    const changed = await change({ current: passwordOf('Una'), next: 'thistles under a leaning barn' });
    expect(changed.statusCode).toBe(204);
    const statuses = await Promise.all([here, there, as(cookiesOf(changed))].map((who) => get('/api/piles', who)));
    expect(statuses.map(({ statusCode }) => statusCode)).toEqual([401, 401, 200]);
  });

  test('ends with a change of role', async () => {
    const pia = as(await join(one, 'Pia', 'keeper'));
    const id = (await one.installation.journal.people.byNameKey('pia'))?.id;
    await one.app.inject({
      method: 'PATCH',
      url: `/api/people/${id}`,
      headers: people.owner,
      payload: { role: 'owner' },
    });
    expect((await get('/api/people', pia)).statusCode).toBe(401);
    expect((await get('/api/people', as(await signIn(one.app, 'Pia')))).statusCode).toBe(200);
    await one.app.inject({
      method: 'PATCH',
      url: `/api/people/${id}`,
      headers: people.owner,
      payload: { role: 'viewer' },
    });
  });

  test('is listed with the others of its person, and ended one by one or all but this', async () => {
    const [first, second, third] = [
      await join(one, 'Lea', 'viewer'),
      await signIn(one.app, 'Lea'),
      await signIn(one.app, 'Lea'),
    ];
    const list = async (who: string) =>
      (await get('/api/me/sessions', as(who))).json<{ sessions: { id: string; isThis: boolean }[] }>().sessions;
    expect((await list(third)).map(({ isThis }) => isThis)).toHaveLength(3);
    const mine = (await list(first)).find(({ isThis }) => isThis)?.id;
    const end = (url: string, who: string) => one.app.inject({ method: 'DELETE', url, headers: as(who) });
    expect((await end(`/api/me/sessions/${mine}`, second)).json()).toEqual({ ended: 1 });
    expect((await get('/api/piles', as(first))).statusCode).toBe(401);
    expect((await end('/api/me/sessions', second)).json()).toEqual({ ended: 1 });
    expect((await get('/api/piles', as(third))).statusCode).toBe(401);
    // Somebody else’s cannot be ended by its id.
    const olives = (await get('/api/me/sessions', people.owner)).json<{ sessions: { id: string }[] }>().sessions[0]?.id;
    expect((await end(`/api/me/sessions/${olives}`, second)).statusCode).toBe(404);
    const id = (await one.installation.journal.people.byNameKey('lea'))?.id;
    const byOwner = await one.app.inject({
      method: 'DELETE',
      url: `/api/people/${id}/sessions`,
      headers: people.owner,
    });
    expect(byOwner.json()).toEqual({ ended: 1 });
    expect((await get('/api/piles', as(second))).statusCode).toBe(401);
  });

  test('ends a week after it was last used, and thirty days after it began however much it is used', async () => {
    const start = machineMs;
    const at = async (days: number, who: string) => {
      machineMs = start + days * dayMs;
      return (await get('/api/piles', as(who))).statusCode;
    };
    const [idle, busy] = [await signIn(one.app, 'Ned'), await signIn(one.app, 'Ned')];
    expect([await at(6.9, idle), await at(6.9, busy)]).toEqual([200, 200]);
    expect([await at(13.8, busy), await at(14, idle)]).toEqual([200, 401]);
    for (const day of [20, 26, 29.9]) expect(await at(day, busy)).toBe(200);
    expect(await at(30, busy)).toBe(401);
    machineMs = start;
  });

  test('signed out, it is over, and the cookie is taken away', async () => {
    const who = await signIn(one.app, 'Ned');
    const out = await one.app.inject({ method: 'DELETE', url: '/api/session', headers: as(who) });
    expect(out.statusCode).toBe(204);
    expect(setCookies(out)).toEqual([expect.stringMatching(/^branhearth_session=; Max-Age=0/)]);
    expect((await get('/api/piles', as(who))).statusCode).toBe(401);
    expect((await one.app.inject({ method: 'DELETE', url: '/api/session', headers: as(who) })).statusCode).toBe(204);
  });
});

describe('a token', () => {
  test('is told once, kept as its digest, says when it was used, and runs out', async () => {
    const { keeper } = people;
    const headers = { ...keeper };
    const made = await post(
      '/api/tokens',
      { name: 'weather', scope: 'keep', days: 3, password: passwordOf('Kim') },
      headers,
    );
    const { secret, id } = made.json<{ secret: string; id: string }>();
    expect(secret).toMatch(/^branhearth_[A-Za-z0-9_-]{43}$/);
    const list = async () =>
      (await get('/api/tokens', headers))
        .json<{ tokens: { id: string; usedAt: string | null }[] }>()
        .tokens.find((one) => one.id === id);
    expect(await list()).toMatchObject({ usedAt: null });
    expect(JSON.stringify(await one.installation.journal.tokens.list())).not.toContain(secret);
    const bearer = { authorization: `Bearer ${secret}` };
    expect((await get('/api/piles', bearer)).statusCode).toBe(200);
    expect(Date.parse((await list())?.usedAt ?? '')).toBe(machineMs);
    machineMs += 3 * dayMs;
    expect((await get('/api/piles', bearer)).statusCode).toBe(401);
    machineMs -= 3 * dayMs;
  });

  test('cannot be made for more than its maker may, and is seen and revoked by its maker and owners alone', async () => {
    const { keeper, viewer, owner } = people;
    expect(
      (await post('/api/tokens', { name: 'x', scope: 'own', password: passwordOf('Kim') }, keeper)).statusCode,
    ).toBe(422);
    expect(
      (await post('/api/tokens', { name: 'x', scope: 'keep', password: passwordOf('Vera') }, viewer)).statusCode,
    ).toBe(422);
    const { id } = (
      await post('/api/tokens', { name: 'kim’s', scope: 'keep', password: passwordOf('Kim') }, keeper)
    ).json<{ id: string }>();
    const revoke = (who: Record<string, string>) =>
      one.app.inject({ method: 'DELETE', url: `/api/tokens/${id}`, headers: who });
    expect((await get('/api/tokens', viewer)).body).not.toContain(id);
    expect((await revoke(viewer)).statusCode).toBe(404);
    expect((await get('/api/tokens', owner)).json<{ tokens: object[] }>().tokens).toContainEqual(
      expect.objectContaining({ id, personName: 'Kim' }),
    );
    expect((await revoke(owner)).statusCode).toBe(204);
  });
});
