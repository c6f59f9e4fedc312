/** Nobody has mail sent to a stranger: an address is confirmed first, and what is sent by hand is few, counted and written down. */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { mailGoes } from '../../../server/notify/mail-standing.ts';
import { sendingBounds } from '../../../server/notify/sending-bounds.ts';
import type { AuditEntry } from '../../../shared/contracts/people.ts';
import { type Preferences, preferencesSchema } from '../../../shared/notifications.ts';
import type { MailAddress } from '../../../shared/store/notifications-store.ts';
import { type MailServer, startMailServer } from '../../helpers/mail-server.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { as, freshAddress, join, settlePeople, type TestPeople } from '../../helpers/people.ts';

const minuteMs = 60_000;
let box: MailServer;
let one: TestInstallation;
let remove: () => Promise<void>;
let people: TestPeople;
let machineMs: number;
beforeAll(async () => {
  box = await startMailServer();
});
afterAll(() => box.close());
beforeEach(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  machineMs = Date.UTC(2031, 4, 1);
  box.mails.length = 0;
  box.mood = 'kind';
  const mailing = { SMTP_URL: box.url, MAIL_FROM: 'alarms@saltmere.example' };
  one = await openTestInstallation(folder.dataDir, mailing, undefined, {}, () => machineMs);
  people = await settlePeople(one);
});
afterEach(async () => {
  await one.close();
  await remove();
});

type Who = Record<string, string>;
const send = (method: 'GET' | 'POST' | 'PUT', url: string, headers: Who, payload?: object) =>
  one.app.inject({ method, url, headers, remoteAddress: freshAddress(), ...(payload && { payload }) });
const prefer = (who: Who, address: string, more: Partial<Preferences> = {}) =>
  send('PUT', '/api/notifications', who, preferencesSchema.parse({ email: { on: address !== '', address }, ...more }));
const askCode = (who: Who) => send('POST', '/api/notifications/mail/code', who);
const enter = (who: Who, code: string) => send('POST', '/api/notifications/mail/confirmation', who, { code });
const askTest = (who: Who) => send('POST', '/api/notifications/test', who, { channel: 'email' });
const standing = async (who: Who) =>
  (await send('GET', '/api/notifications', who)).json<{ mail: { standing: string; goesTo: string | null } }>().mail;
/** The newest mail to an address, once all has been brought. */
const newest = async (address: string) => {
  await one.installation.delivery.settled();
  return box.mails.filter(({ to }) => to.includes(address)).at(-1)?.parsed.text ?? '';
};
const codeIn = (text: string) => /\b(\d{4} \d{4})\b/.exec(text)?.[1] ?? '';
const rows = async (words: string) =>
  (await send('GET', `/api/audit?words=${encodeURIComponent(words)}`, people.owner)).json<{ entries: AuditEntry[] }>()
    .entries;
const wrongOf = (code: string) => String((Number(code.replace(' ', '')) + 1) % 100_000_000).padStart(8, '0');
const stranger = 'stranger@elsewhere.example';

test('a dishonest viewer has nothing but a code sent to a stranger, however often they ask', async () => {
  await prefer(people.viewer, stranger);
  for (let count = 0; count < 30; count += 1) expect((await askTest(people.viewer)).statusCode).toBe(409);
  const statuses: number[] = [];
  for (let count = 0; count < 30; count += 1) {
    statuses.push((await askCode(people.viewer)).statusCode);
    machineMs += 1_000;
  }
  expect(statuses.filter((status) => status === 202)).toHaveLength(sendingBounds.code.address.atOnce);
  await one.installation.delivery.settled();
  const got = box.mails.filter(({ to }) => to.includes(stranger));
  expect(got.length).toBeLessThanOrEqual(sendingBounds.code.address.atOnce);
  for (const { parsed } of got) {
    expect(parsed.text).toContain('Do nothing. Nothing else is sent to this address.');
    expect(parsed.text).not.toContain('Vera');
  }
  const refused = await askCode(people.viewer);
  expect([refused.statusCode, refused.json<{ detail: string }>().detail]).toEqual([
    429,
    'Several codes were sent already. The next one is possible in 6 hours.',
  ]);
  expect(Number(refused.headers['retry-after'])).toBeGreaterThan(5 * 3600);
  expect(await rows('code')).toHaveLength(sendingBounds.code.address.atOnce);
  expect((await rows('code'))[0]).toMatchObject({ personName: 'Vera', subject: stranger });
});

test('several people cannot share one stranger out among them', async () => {
  const askers = [people.viewer, people.keeper, as(await join(one, 'Ned', 'viewer'))];
  let sent = 0;
  for (const who of askers) {
    await prefer(who, stranger.toUpperCase());
    for (let count = 0; count < 4; count += 1) if ((await askCode(who)).statusCode === 202) sent += 1;
  }
  expect(sent).toBe(sendingBounds.code.address.atOnce);
});

test('a name or note of a person never reaches an address that nobody confirmed', async () => {
  const odd = as(await join(one, 'Win at evil.example', 'viewer'));
  await prefer(odd, stranger);
  await askCode(odd);
  await newest(stranger);
  expect(box.mails.at(-1)?.raw).not.toContain('evil');
});

test('the code of the newest e-mail, however it is typed, confirms; then tests go out, few and written down', async () => {
  await prefer(people.viewer, 'vera@saltmere.example');
  expect(await standing(people.viewer)).toMatchObject({ standing: 'waiting', goesTo: null });
  await askCode(people.viewer);
  const first = codeIn(await newest('vera@saltmere.example'));
  machineMs += 1_000;
  await askCode(people.viewer);
  const code = codeIn(await newest('vera@saltmere.example'));
  expect(code).not.toBe(first);
  expect((await enter(people.viewer, first)).statusCode).toBe(422);
  const confirmed = await enter(people.viewer, ` ${code.replace(' ', '-')} `);
  expect(confirmed.json()).toMatchObject({ standing: 'confirmed', goesTo: 'vera@saltmere.example' });
  expect((await rows('confirmed an e-mail'))[0]).toMatchObject({
    personName: 'Vera',
    subject: 'vera@saltmere.example',
  });
  expect((await askCode(people.viewer)).statusCode).toBe(409);

  const { atOnce, thenEveryMs } = sendingBounds.test.person;
  for (let count = 0; count < atOnce; count += 1) expect((await askTest(people.viewer)).statusCode).toBe(202);
  const refused = await askTest(people.viewer);
  expect([refused.statusCode, refused.headers['retry-after'], refused.json<{ detail: string }>().detail]).toEqual([
    429,
    String(thenEveryMs / 1000),
    'Several tests were sent already. The next one is possible in 10 minutes.',
  ]);
  await one.installation.delivery.settled();
  expect(box.mails.filter(({ parsed }) => parsed.subject?.includes('a test'))).toHaveLength(atOnce);
  expect(await rows('had a test sent')).toHaveLength(atOnce);
  machineMs += thenEveryMs - 1;
  expect((await askTest(people.viewer)).statusCode).toBe(429);
  machineMs += 1;
  expect((await askTest(people.viewer)).statusCode).toBe(202);
  expect((await askTest(people.viewer)).statusCode).toBe(429);
});

test('tests of all people together are bounded too', async () => {
  const { person, server } = sendingBounds.test;
  let sent = 0;
  for (let count = 0; count < server.atOnce / person.atOnce + 1; count += 1) {
    const who = as(await join(one, `Helper ${count}`, 'viewer'));
    for (let more = 0; more < person.atOnce; more += 1) {
      const answer = await send('POST', '/api/notifications/test', who, { channel: 'push' });
      if (answer.statusCode === 202) sent += 1;
    }
  }
  expect(sent).toBe(server.atOnce);
});

test('wrong codes: five, and then the right one is worth nothing until a new one is sent', async () => {
  await prefer(people.viewer, 'vera@saltmere.example');
  expect((await enter(people.viewer, '1234 5678')).json<{ detail: string }>().detail).toContain('have one sent');
  await askCode(people.viewer);
  const code = codeIn(await newest('vera@saltmere.example'));
  for (let count = 0; count < 5; count += 1) {
    expect((await enter(people.viewer, wrongOf(code))).statusCode).toBe(422);
  }
  const tooLate = await enter(people.viewer, code);
  expect([tooLate.statusCode, tooLate.json<{ errors: { pointer: string }[] }>().errors[0]?.pointer]).toEqual([
    422,
    '/code',
  ]);
  machineMs += 1_000;
  await askCode(people.viewer);
  const another = codeIn(await newest('vera@saltmere.example'));
  expect((await enter(people.viewer, another)).statusCode).toBe(200);
});

test('a code is good for a day, for one person and one address', async () => {
  await prefer(people.viewer, 'shared@saltmere.example');
  await prefer(people.keeper, 'shared@saltmere.example');
  await askCode(people.viewer);
  const code = codeIn(await newest('shared@saltmere.example'));
  machineMs += 24 * 60 * minuteMs;
  expect((await enter(people.viewer, code)).json<{ detail: string }>().detail).toContain('has run out');
  machineMs -= 1;
  await askCode(people.keeper);
  expect((await enter(people.keeper, code)).statusCode).toBe(422);
  await prefer(people.viewer, 'other@saltmere.example');
  expect((await enter(people.viewer, code)).statusCode).toBe(422);
  await prefer(people.viewer, 'shared@saltmere.example');
  expect((await enter(people.viewer, code)).statusCode).toBe(200);
});

test('the code stands in no table, no answer and no row of the audit trail', async () => {
  await prefer(people.viewer, 'vera@saltmere.example');
  const { id } = (await askCode(people.viewer)).json<{ id: string }>();
  const code = codeIn(await newest('vera@saltmere.example'));
  expect(code).toMatch(/^\d{4} \d{4}$/);
  const { journal } = one.installation;
  const kept = [
    await journal.notifications.notices.get(id),
    await journal.notifications.mailAddresses.list(),
    await journal.audit.list({ limit: 500 }),
    (await send('GET', `/api/notifications/notices/${id}`, people.keeper)).body,
    (await send('GET', '/api/notifications/undelivered', people.keeper)).body,
  ];
  for (const text of kept.map((one) => JSON.stringify(one))) {
    expect(text).not.toContain(code);
    expect(text).not.toContain(code.replace(' ', ''));
  }
});

test('a code that cannot be delivered is no trouble of everybody’s', async () => {
  box.mood = 'refuse';
  await prefer(people.viewer, 'no-such@saltmere.example');
  const { id } = (await askCode(people.viewer)).json<{ id: string }>();
  await one.installation.delivery.settled();
  const notice = (await send('GET', `/api/notifications/notices/${id}`, people.viewer)).json<{
    messages: { state: string }[];
  }>();
  expect(notice.messages).toMatchObject([{ state: 'given-up' }]);
  expect((await send('GET', '/api/notifications/undelivered', people.viewer)).json()).toEqual({ messages: [] });
});

test('whoever was removed has no address left', async () => {
  const ned = as(await join(one, 'Ned', 'viewer'));
  await prefer(ned, 'ned@saltmere.example');
  await askCode(ned);
  const id = (await one.installation.journal.people.byNameKey('ned'))?.id ?? '';
  await one.app.inject({ method: 'DELETE', url: `/api/people/${id}`, headers: people.owner });
  expect(await one.installation.journal.notifications.mailAddresses.list(id)).toEqual([]);
});

describe('where mail goes', () => {
  const row = (address: string, state: MailAddress['standing'], sinceMs = 0): MailAddress => ({
    personId: 'vera',
    address,
    standing: state,
    sinceMs,
    askedAtMs: null,
    tries: 0,
  });
  const table: [
    what: string,
    preferred: string,
    own: MailAddress[],
    server: string | undefined,
    standing: string,
    to: string | undefined,
  ][] = [
    ['no address', '', [row('a@x.example', 'confirmed')], undefined, 'none', undefined],
    ['a new one', 'a@x.example', [], undefined, 'waiting', undefined],
    ['one that waits', 'a@x.example', [row('a@x.example', 'waiting')], undefined, 'waiting', undefined],
    [
      'a confirmed one, in whatever letters',
      'A@x.example',
      [row('a@x.example', 'confirmed')],
      undefined,
      'confirmed',
      'A@x.example',
    ],
    [
      'one of before addresses were confirmed',
      'a@x.example',
      [row('a@x.example', 'before')],
      undefined,
      'before',
      'a@x.example',
    ],
    [
      'a new one after a confirmed one: on to that',
      'b@x.example',
      [row('a@x.example', 'confirmed')],
      undefined,
      'waiting',
      'a@x.example',
    ],
    [
      'a new one after one of before: on to that',
      'b@x.example',
      [row('a@x.example', 'before'), row('b@x.example', 'waiting', 5)],
      undefined,
      'waiting',
      'a@x.example',
    ],
    [
      'a new one after several: on to the latest',
      'c@x.example',
      [row('a@x.example', 'before'), row('b@x.example', 'confirmed', 5)],
      undefined,
      'waiting',
      'b@x.example',
    ],
    ['the one that the program was started with', 'a@x.example', [], 'a@x.example', 'set-by-server', 'a@x.example'],
  ];
  test.each(table)('%s', (_what, preferred, own, server, expected, to) => {
    expect(mailGoes(preferred, own, server)).toEqual({ standing: expected, to });
  });

  test('a change of address silences nobody: warnings go on to the one before until the new one is confirmed', async () => {
    const channels = async () =>
      (await one.installation.delivery.people.listeners())
        .filter(({ name }) => name === 'Vera')
        .flatMap(({ channels }) => channels.map(({ address }) => address));
    await prefer(people.viewer, 'old@saltmere.example');
    expect(await channels()).toEqual([]);
    await askCode(people.viewer);
    await enter(people.viewer, codeIn(await newest('old@saltmere.example')));
    expect(await channels()).toEqual(['old@saltmere.example']);
    await prefer(people.viewer, 'new@saltmere.example');
    expect([await channels(), await standing(people.viewer)]).toEqual([
      ['old@saltmere.example'],
      expect.objectContaining({ standing: 'waiting', goesTo: 'old@saltmere.example' }),
    ]);
    machineMs += 1_000;
    await askCode(people.viewer);
    await enter(people.viewer, codeIn(await newest('new@saltmere.example')));
    expect(await channels()).toEqual(['new@saltmere.example']);
    // The one before is nobody's from then on, and one that was taken away must be confirmed again.
    await prefer(people.viewer, 'old@saltmere.example');
    expect(await channels()).toEqual(['new@saltmere.example']);
    await prefer(people.viewer, '');
    await prefer(people.viewer, 'new@saltmere.example');
    expect([await channels(), (await standing(people.viewer)).standing]).toEqual([[], 'waiting']);
  });
});

test('somebody unknown has nothing sent', async () => {
  for (const url of ['/api/notifications/mail/code', '/api/notifications/test'])
    expect((await send('POST', url, {})).statusCode).toBe(401);
});
