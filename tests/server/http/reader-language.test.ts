/** Everybody reads in their own language, of those that there are catalogues of: here a second one, of a few texts, for this test. */
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { renderContent } from '../../../server/notify/channels/render-content.ts';
import { Recipients } from '../../../server/notify/people.ts';
import type { SessionAnswer } from '../../../shared/contracts/people.ts';
import type { Problem } from '../../../shared/contracts/problem.ts';
import { message } from '../../../shared/messages/message.ts';
import { preferencesSchema } from '../../../shared/notifications.ts';
import type { NotificationsStore } from '../../../shared/store/notifications-store.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { makeToken, settlePeople, type TestPeople } from '../../helpers/people.ts';

vi.mock('../../../shared/messages/catalogues.ts', async (original) => {
  const { readTexts } = await original<typeof import('../../../shared/messages/catalogues.ts')>();
  const german = {
    'say.no-batch': 'Hier liegt nichts.',
    'health.store.ok': 'nimmt und antwortet',
    'calendar.check': 'Nachsehen: {pileName}',
    'notice.test': 'Probe für {personName}.',
    'notice.label.seen': 'Gesehen',
    'warnings.value.now': 'im Kern sind es {tempC}',
    'problem.title.404': 'Hier ist nichts',
    'problem.not-found': 'Es gibt nichts, was „{idText}“ heißt.',
    'problem.who-are-you': 'Melde dich an.',
    'problem.in-field': '{fieldName}: {faultPart}',
    'problem.id-taken': 'Die Kennung „{idText}“ ist vergeben.',
    'field.at-least': 'Mindestens {limitPart}.',
    'field.amount.cm': '{valueCm}',
    'import.column.ignored': 'entfällt',
    'import.no-time-column': 'Keine Spalte sagt, wann.',
    'label.opens-here': 'Der Code öffnet nur auf diesem Rechner.',
  };
  return { readTexts: (language: string) => (language === 'de' ? german : readTexts(language)) };
});
vi.mock('../../../shared/messages/made/languages.ts', () => ({ languages: ['en', 'de'] }));

let one: TestInstallation;
let people: TestPeople;
let remove: () => Promise<void>;
beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  one = await openTestInstallation(folder.dataDir);
  people = await settlePeople(one);
  await post('/api/sites', { id: 'yard', name: 'Yard' });
  await post('/api/piles', { id: 'bay', site: 'yard', name: 'Bay', stage: 'bran' });
  await post('/api/piles/bay/finish', {});
});
afterAll(async () => {
  await one.close();
  await remove();
});

async function post(url: string, payload: object): Promise<void> {
  const answer = await one.app.inject({ method: 'POST', url, payload, headers: people.owner });
  expect(answer.statusCode, answer.body).toBeLessThan(300);
}

async function pile(headers: Record<string, string>): Promise<{ condition: string; next: string }> {
  const answer = await one.app.inject({ url: '/api/piles/bay', headers });
  const { condition, next } = answer.json<{ condition: string; next: string }>();
  expect(answer.headers.vary).toContain('Accept-Language');
  return { condition, next };
}
const english = { condition: 'No batch lies here now.', next: 'Start the next batch when you lay it.' };
const heat = { isFirst: false, position: 'core', tempC: 51.5 } as const;
// The second catalogue has the first sentence only; the other is said in English.
const german = { ...english, condition: 'Hier liegt nichts.' };

test.each([
  ['nothing', undefined, english],
  ['German', 'de-AT,de;q=0.9,en;q=0.5', german],
  ['a language that is not there', 'sw-KE', english],
  ['anything', '*', english],
])('whose browser asks for %s reads so', async (_what, header, said) => {
  const language = header === undefined ? {} : { 'accept-language': header };
  expect(await pile({ ...people.viewer, ...language })).toEqual(said);
});

const readIn = (headers: Record<string, string>, language: string | null) =>
  one.app.inject({ method: 'PUT', url: '/api/me/reading', headers, payload: { language } });

test('what a person chose comes before what their browser asks for, until they leave it to that again', async () => {
  expect((await readIn(people.keeper, 'de')).json()).toEqual({ language: 'de' });
  const asked = { ...people.keeper, 'accept-language': 'en' };
  expect(await pile(asked)).toEqual(german);
  const session = await one.app.inject({ url: '/api/session', headers: people.keeper });
  expect(session.json<SessionAnswer>().person).toMatchObject({ name: 'Kim', language: 'de' });
  await readIn(people.keeper, null);
  expect(await pile(asked)).toEqual(english);
  expect((await one.app.inject({ url: '/api/session', headers: people.keeper })).json<SessionAnswer>().person).toEqual(
    expect.not.objectContaining({ language: expect.anything() }),
  );
});

test('a token is a program: it reads English, whatever its owner chose, unless it asks otherwise', async () => {
  const token = { authorization: `Bearer ${await makeToken(one.app, people.owner, 'read')}` };
  await readIn(people.owner, 'de');
  expect(await pile(token)).toEqual(english);
  expect(await pile({ ...token, 'accept-language': 'de' })).toEqual(german);
});

test('a language without a catalogue cannot be chosen', async () => {
  expect((await readIn(people.viewer, 'fr')).statusCode).toBe(400);
});

test('messages are worded in the language that their person chose, with the numbers of that language', async () => {
  const notifications = {
    preferences: { list: async () => [] },
    devices: { list: async () => [] },
    mailAddresses: { list: async () => [] },
  } as unknown as NotificationsStore;
  const known = async () => one.installation.journal.people.list();
  const recipients = new Recipients({
    notifications,
    services: { list: async () => [] },
    known,
    canMail: false,
    mailTo: undefined,
  });
  await readIn(people.keeper, 'de');
  const readerIn = async (person: string) => {
    const found = (await known()).find(({ name }) => name === person);
    return recipients.readerOf(found?.id ?? '');
  };
  const said = {
    title: { name: 'Bay', what: message('notice.test.title') },
    sentence: message('notice.test', { personName: 'Kim' }),
    parts: [{ label: message('notice.label.seen'), text: message('warnings.value.now', heat) }],
  };
  const worded = async (person: string) => renderContent(said, await readerIn(person), 0);
  expect(await worded('Kim')).toMatchObject({
    sentence: 'Probe für Kim.',
    parts: [{ label: 'Gesehen', text: 'im Kern sind es 51,5 °C' }],
  });
  expect((await worded('Vera')).sentence).toContain('This is the test that Kim asked for');
});

test('what health says of each part is in the language that is asked for', async () => {
  const detailIn = async (language: string) => {
    const answer = await one.app.inject({ url: '/api/health', headers: { 'accept-language': language } });
    return answer.json<{ parts: { journal: { detail: string; messages: object } } }>().parts.journal;
  };
  expect(await detailIn('en')).toMatchObject({ detail: 'takes and answers' });
  expect(await detailIn('de')).toMatchObject({
    detail: 'nimmt und antwortet',
    messages: { detail: { code: 'health.store.ok' } },
  });
});

test('the calendar of a person is in the language and the unit that they chose', async () => {
  await post('/api/piles', { id: 'shed', site: 'yard', name: 'Shed', stage: 'bran' });
  const calendarOf = async (headers: Record<string, string>) => {
    const { address } = (await one.app.inject({ url: '/api/calendar', headers })).json<{ address: string }>();
    return (await one.app.inject(new URL(address).pathname)).body.replaceAll('\r\n ', '');
  };
  await readIn(people.keeper, 'de');
  expect(await calendarOf(people.keeper)).toContain('SUMMARY:Nachsehen: Shed');
  expect(await calendarOf(people.viewer)).toContain('SUMMARY:Check: Shed');

  const { person } = (await one.app.inject({ url: '/api/session', headers: people.viewer })).json<SessionAnswer>();
  const { preferences } = one.installation.journal.notifications;
  expect(await calendarOf(people.viewer)).toContain('sooner if the core passes 50 °C');
  await preferences.set(person?.id ?? '', preferencesSchema.parse({ unit: 'F' }));
  expect(await calendarOf(people.viewer)).toContain('sooner if the core passes 122 °F');
});

async function refusedIn(
  language: string,
  request: { method: 'GET' | 'POST'; url: string; payload?: object },
  headers = people.owner,
) {
  const answer = await one.app.inject({ ...request, headers: { ...headers, 'accept-language': language } });
  expect(answer.headers['content-type']).toContain('application/problem+json');
  return answer.json<Problem>();
}

test('a refusal is in the language of whoever asks, and its code and parameters stand beside it', async () => {
  const nothing = { method: 'GET', url: '/api/piles/barn' } as const;
  expect(await refusedIn('en', nothing, people.viewer)).toMatchObject({
    status: 404,
    title: 'Nothing is here',
    detail: 'There is no pile "barn".',
    messages: { detail: { code: 'problem.not-found', params: { what: 'pile', idText: 'barn' } } },
  });
  expect(await refusedIn('de', nothing, people.viewer)).toMatchObject({
    status: 404,
    title: 'Hier ist nichts',
    detail: 'Es gibt nichts, was „barn“ heißt.',
    messages: { detail: { code: 'problem.not-found', params: { what: 'pile', idText: 'barn' } } },
  });
});

test('so is what is wrong with a field, in the numbers of that language', async () => {
  const shallow = {
    method: 'POST',
    url: '/api/piles',
    payload: { site: 'yard', id: 'barn', name: 'Barn', stage: 'bran', recipe: { depthM: 0.005 } },
  } as const;
  expect(await refusedIn('de', shallow)).toMatchObject({
    status: 400,
    detail: 'recipe.depthM: Mindestens 2 cm.',
    errors: [{ pointer: '/recipe/depthM', detail: 'Mindestens 2 cm.' }],
  });
});

test('so is a conflict with what the journal holds', async () => {
  const again = { method: 'POST', url: '/api/sites', payload: { id: 'yard', name: 'Yard' } } as const;
  expect(await refusedIn('de', again)).toMatchObject({
    status: 409,
    detail: 'Die Kennung „yard“ ist vergeben.',
    errors: [{ pointer: '/id', detail: 'Die Kennung „yard“ ist vergeben.' }],
  });
});

test('so is a refusal before anybody is known', async () => {
  expect(await refusedIn('de', { method: 'GET', url: '/api/piles' }, {})).toMatchObject({
    status: 401,
    detail: 'Melde dich an.',
  });
});

test('so is what an import says of its columns, and what a label opens', async () => {
  const german = { ...people.owner, 'accept-language': 'de' };
  const ask = { kind: 'readings', csv: 'remarks\nwet', site: 'yard' };
  const preview = await one.app.inject({ method: 'POST', url: '/api/import/preview', headers: german, payload: ask });
  expect(preview.json()).toMatchObject({ problem: 'Keine Spalte sagt, wann.', columns: [{ says: 'entfällt' }] });
  const label = await one.app.inject({ url: '/api/piles/bay/label', headers: german });
  expect(label.json()).toMatchObject({ says: 'Der Code öffnet nur auf diesem Rechner.' });
});
