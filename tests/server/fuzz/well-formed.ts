/**
 * For each route that changes something one ask that must succeed: what is made at random seldom fits together, and what
 * is refused reaches little of the program.
 */
import { createHash } from 'node:crypto';
import { mailCode } from '../../../server/notify/mail-code.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { preferencesSchema } from '../../../shared/notifications.ts';
import { commitReadings } from '../../helpers/commit-readings.ts';
import type { TestInstallation } from '../../helpers/open-test-server.ts';
import { makeToken, passwordOf } from '../../helpers/people.ts';
import { until } from '../../helpers/until.ts';

export interface Asked {
  readonly params: Record<string, string>;
  readonly query: [string, string][];
  readonly body: unknown;
}

/** What was laid for this route, fresh. */
export interface Laid {
  readonly one: TestInstallation;
  readonly number: number;
  readonly piles: readonly string[];
  readonly batches: readonly string[];
  readonly lot: string;
  readonly entry: string;
  readonly key: string;
  readonly probe: string;
  readonly photo: string;
  /** Vera's like: somebody who asks nothing, signed in. */
  readonly person: string;
  readonly personHeaders: Record<string, string>;
  readonly headers: Record<string, string>;
  /** By which the caller signs in, and who it is. */
  readonly name: string;
  readonly personId: string;
  send(method: 'POST' | 'PUT' | 'PATCH', url: string, payload: object): Promise<{ id: string }>;
  read(url: string): Promise<Record<string, unknown>>;
}

type WellFormed = (laid: Laid) => Promise<Partial<Asked>> | Partial<Asked>;

const digestOf = (secret: string) => createHash('sha256').update(secret).digest('hex');
const hourMs = 3_600_000;

const service = { channel: 'ntfy', on: true, values: { topic: 'saltmere-yard', server: 'https://ntfy.example' } };
const of = (body: unknown, params: Record<string, string> = {}): Partial<Asked> => ({ params, body });
const nothing = (params: Record<string, string>): Partial<Asked> => ({ params });
const atPile =
  (body: (laid: Laid) => unknown): WellFormed =>
  (laid) =>
    of(body(laid), { id: laid.piles[0] ?? '' });
const atBatch =
  (body: (laid: Laid) => unknown): WellFormed =>
  (laid) =>
    of(body(laid), { id: laid.batches[0] ?? '' });
const atProbe =
  (body?: (laid: Laid) => unknown): WellFormed =>
  (laid) =>
    of(body?.(laid), { site: 'yard', probe: laid.probe });
const atPerson =
  (body?: unknown): WellFormed =>
  ({ person }) =>
    of(body, { id: person });
const onNewPile = ({ number }: Laid) => ({ newPile: { site: 'yard', name: `Next ${number}` } });

/** Something rotten stands at once, without a probe. */
async function alarmOf({ one, piles, send }: Laid): Promise<string> {
  const pile = piles[0] ?? '';
  await send('POST', `/api/piles/${pile}/entries`, { what: { kind: 'smell', smells: ['rotten'] } });
  return until('a warning', async () => (await one.installation.journal.alarms.open(pile))[0]?.id);
}

async function noticeOf({ one, piles, number }: Laid, alarmId: string): Promise<string> {
  const id = `notice-${number}-of-the-test`;
  const atMs = Date.now();
  const [pileId = null] = piles;
  const facts = { said: verbatim('Something was seen.'), todo: verbatim('Look at it.'), short: verbatim('seen') };
  const about = { about: 'server', answer: 'first-raise', rank: 2, siteId: null, pileId, alarmId } as const;
  await one.installation.journal.notifications.notices.add([
    { id, key: id, ...about, personId: null, atMs, dueMs: atMs + 999 * hourMs, facts },
  ]);
  return id;
}

const behindLink: WellFormed = async (laid) => {
  const secret = `secret-${laid.number}-of-the-test`.padEnd(43, '-');
  const { notifications } = laid.one.installation.journal;
  const noticeId = await noticeOf(laid, await alarmOf(laid));
  const who = { personId: laid.personId, personName: laid.name, channel: 'email' as const };
  await notifications.links.add({
    digest: digestOf(secret),
    noticeId,
    ...who,
    expiresAtMs: Date.now() + hourMs,
    usedAtMs: null,
  });
  return nothing({ secret });
};

const invited = async ({ one }: Laid, role: 'viewer' | 'keeper' = 'viewer') =>
  (await one.installation.people.links.make({ kind: 'invitation', role, maker: null, lengthMs: hourMs })).secret;

const deviceOf = (number: number) => ({
  endpoint: `https://push.saltmere.example/${number}`,
  keys: { p256dh: 'B'.repeat(87), auth: 'A'.repeat(22) },
  label: 'Phone of the shed',
});
async function deviceFor({ one, number }: Laid, headers: Record<string, string>): Promise<string> {
  const url = '/api/notifications/devices';
  const answer = await one.app.inject({ method: 'POST', url, headers, payload: deviceOf(number) });
  return answer.json<{ id: string }>().id;
}

const withAddress = ({ number, name }: Laid) =>
  preferencesSchema.parse({ email: { on: true, address: `${name.toLowerCase()}-${number}@saltmere.example` } });

const mapping = {
  values: [{ pointer: '/value', quantity: 'temperature', unit: 'C', scale: 1 }],
  ...{ filter: 'barn/+/t', site: 'yard', probe: 'barn-{1}' },
};
const csvOf = ({ number }: Laid) => ({
  kind: 'readings',
  csv: `time,temperature\n2026-05-01T10:00:00Z,31\n2026-05-01T11:00:00Z,32\n`,
  site: 'yard',
  probe: `core-${number}`,
});

export const wellFormed: Readonly<Record<string, WellFormed>> = {
  'POST /api/alarms/{id}/acknowledge': async (laid) => of({}, { id: await alarmOf(laid) }),
  'POST /api/alarms/{id}/shelve': async (laid) => of({ minutes: 30 }, { id: await alarmOf(laid) }),
  'POST /api/alarms/{id}/unshelve': async (laid) => {
    const id = await alarmOf(laid);
    await laid.send('POST', `/api/alarms/${id}/shelve`, { minutes: 30 });
    return of({}, { id });
  },

  'POST /api/batches/merge': (laid) =>
    of({ stage: 'bran', on: onNewPile(laid), from: laid.batches.map((batchId) => ({ batchId })) }),
  'PATCH /api/batches/{id}': atBatch(() => ({ outcome: 'Sweet and white.' })),
  'POST /api/batches/{id}/abandon': atBatch(() => ({ reason: 'Rats.' })),
  'POST /api/batches/{id}/continue': atBatch((laid) => ({ stage: 'soil', on: onNewPile(laid) })),
  'POST /api/batches/{id}/inputs': atBatch(({ lot }) => ({ lotId: lot, massKg: 3 })),
  'DELETE /api/batches/{id}/inputs/{flowId}': async ({ batches: [id = ''], lot, send, read }) => {
    await send('POST', `/api/batches/${id}/inputs`, { lotId: lot, massKg: 3 });
    const { inputs } = (await read(`/api/batches/${id}`)) as { inputs: { id: string }[] };
    return nothing({ id, flowId: inputs[0]?.id ?? '' });
  },
  'POST /api/batches/{id}/keep': atBatch(({ number }) => ({ name: `Starter ${number}`, massKg: 2 })),
  'POST /api/batches/{id}/split': atBatch((laid) => ({ parts: [{ on: onNewPile(laid), massKg: 5 }] })),
  'POST /api/batches/{id}/uses': atBatch(() => ({ target: 'bed', place: 'Bed 3, upper terrace', massKg: 4 })),

  'POST /api/entries': ({ number, name, piles }) => {
    const entry = { id: `waited-${number}-${name}`, note: 'Written in the shed.', what: { kind: 'note' } };
    return of({ entries: [{ pileId: piles[0], entry }] });
  },
  'POST /api/entries/{id}/corrections': async ({ entry, read }) => {
    const { entry: now } = (await read(`/api/entries/${entry}`)) as { entry: { versionId: string } };
    return of({ replaces: now.versionId, note: 'Laid it well.', what: { kind: 'note' } }, { id: entry });
  },
  'POST /api/entries/{id}/withdrawal': async ({ entry, read }) => {
    const { entry: now } = (await read(`/api/entries/${entry}`)) as { entry: { versionId: string } };
    return of({ replaces: now.versionId }, { id: entry });
  },
  'POST /api/piles/{id}/entries': atPile(() => ({ what: { kind: 'squeeze', feel: 'holds' } })),
  'POST /api/piles/{id}/acts': atPile(() => ({ kind: 'turned' })),
  'POST /api/piles/{id}/finish': atPile(() => ({})),
  'POST /api/piles/{id}/batches': async ({ piles: [id = ''], send }) => {
    await send('POST', `/api/piles/${id}/finish`, {});
    return of({ stage: 'soil' }, { id });
  },
  'POST /api/piles': ({ number }) => of({ id: `third-${number}`, site: 'yard', name: 'Third', stage: 'soil' }),
  'PATCH /api/piles/{id}': atPile(() => ({ name: 'Bay by the wall' })),
  'DELETE /api/piles/{id}': async ({ number, send }) => {
    const { id } = await send('POST', '/api/piles', {
      id: `gone-${number}`,
      site: 'yard',
      name: 'Gone',
      stage: 'bran',
    });
    return nothing({ id });
  },
  'POST /api/sites': ({ number, name }) => of({ id: `site-${name.toLowerCase()}-${number}`, name: 'Terrace' }),
  'POST /api/sites/{id}/air-ahead': () =>
    of({ points: [1, 2].map((hour) => ({ at: Date.now() + hour * 3_600_000, temperatureC: 12 })) }, { id: 'yard' }),
  // For no place: nobody is asked.
  'PUT /api/weather': () => of({ contact: null, places: [] }),
  'POST /api/lots': ({ number }) =>
    of({ name: `Rice bran ${number}`, facts: { kind: 'material', material: 'rice-bran' } }),
  'PATCH /api/lots/{id}': ({ lot }) => of({ usedUp: true }, { id: lot }),

  'POST /api/import/preview': (laid) => of(csvOf(laid)),
  'POST /api/import/commit': async (laid) => {
    const answer = await laid.one.app.inject({
      ...{ method: 'POST', url: '/api/import/preview', headers: laid.headers, payload: csvOf(laid) },
    });
    return of({ ...csvOf(laid), digest: answer.json<{ digest: string }>().digest });
  },
  'POST /api/plan/dates': () => of({ startAt: 1_932_000_000, stage: 'bran', airC: 25 }),
  'POST /api/plan/dilution': () => of({ waterL: 8, ratio: 500, convention: 'part-in' }),
  'POST /api/plan/mix': () => of({ by: 'mass', materials: [{ material: 'wheat-bran', massKg: 10 }] }),
  'POST /api/plan/water': () => of({ materialKg: 10, moistureNow: 0.12, moistureTarget: 0.6 }),
  // Only shown: one that is kept has the bands of all other piles drawn anew, here by this very process.
  'POST /api/seasons/earlier': ({ number }) =>
    of({
      ...{ site: 'yard', name: `Of ${number}`, stage: 'bran', recipe: { material: 'wheat-bran' } },
      table: Array.from({ length: 6 }, (_, day) => `2024-04-0${day + 1} ${30 + day * 2} 14`).join('\n'),
    }),

  'POST /api/piles/{id}/probe-offset': async (laid) => {
    const [pileId = ''] = laid.piles;
    await laid.send('POST', `/api/probes/yard/${laid.probe}/claim`, { pileId, position: 'core' });
    const atMs = Date.now() - 60_000;
    const reading = { site: 'yard', probe: laid.probe, quantity: 'temperature' as const, atMs, value: 41.2 };
    await commitReadings(laid.one.installation, [reading]);
    const what = { kind: 'measured', position: 'core', temperatureC: 44 };
    await laid.send('POST', `/api/piles/${pileId}/entries`, { at: new Date(atMs + 1_000).toISOString(), what });
    const [offered] = await until('a difference', async () => {
      const { handDifferences } = await laid.read(`/api/piles/${pileId}`);
      const offers = handDifferences as { at: string }[];
      return offers.length > 0 ? offers : undefined;
    });
    return of({ position: 'core', at: offered?.at }, { id: pileId });
  },
  'DELETE /api/probes/{site}/{probe}': atProbe(),
  'PUT /api/probes/{site}/{probe}/calibration': atProbe(() => ({ temperatureOffsetC: 0.5 })),
  'POST /api/probes/{site}/{probe}/claim': atProbe(({ piles }) => ({ pileId: piles[0], position: 'core' })),
  'DELETE /api/probes/{site}/{probe}/claim': atProbe(),
  'POST /api/keys': ({ probe }) => of({ name: 'Two', site: 'yard', probe, foreign: [], hears: 'own' }),
  'DELETE /api/keys/{id}': ({ key }) => nothing({ id: key }),
  'POST /api/mappings': () => of(mapping),
  'POST /api/mappings/try': () => of(mapping),
  'PUT /api/mappings/{id}': async ({ send }) => of(mapping, { id: (await send('POST', '/api/mappings', mapping)).id }),
  'DELETE /api/mappings/{id}': async ({ send }) => nothing({ id: (await send('POST', '/api/mappings', mapping)).id }),

  'PUT /api/notifications': (laid) => of(withAddress(laid)),
  'PUT /api/notifications/services': () => of(service),
  'DELETE /api/notifications/services/{channel}': async ({ send }) => {
    await send('PUT', '/api/notifications/services', service);
    return nothing({ channel: service.channel });
  },
  'POST /api/notifications/devices': ({ number }) => of(deviceOf(number)),
  'POST /api/notifications/devices/here': ({ number }) => of({ endpoint: deviceOf(number).endpoint }),
  'DELETE /api/notifications/devices/{id}': async (laid) => nothing({ id: await deviceFor(laid, laid.headers) }),
  'POST /api/notifications/mail/code': async (laid) => {
    await laid.send('PUT', '/api/notifications', withAddress(laid));
    return {};
  },
  'POST /api/notifications/mail/confirmation': async (laid) => {
    const { journal } = laid.one.installation;
    const { address } = withAddress(laid).email;
    await laid.send('PUT', '/api/notifications', withAddress(laid));
    const askedAtMs = Date.now();
    await journal.notifications.mailAddresses.ask(laid.personId, address, askedAtMs);
    return of({ code: await mailCode(journal.settings, { personId: laid.personId, address, askedAtMs }) });
  },
  'POST /api/notifications/undelivered/{id}/seen': async (laid) => {
    const { notifications } = laid.one.installation.journal;
    const noticeId = await noticeOf(laid, await alarmOf(laid));
    const id = `message-${laid.number}-of-the-test`;
    const to = {
      personId: laid.personId,
      personName: laid.name,
      channel: 'email',
      address: 'x@saltmere.example',
    } as const;
    const times = { madeAtMs: 1, notBeforeMs: 1, nextTryMs: 1, doneAtMs: 2, seenAtMs: null };
    const state = { state: 'given-up', reason: verbatim('no such mailbox'), tries: 1, rank: 2 } as const;
    const messages = [{ id, noticeId, ...to, addressLabel: to.address, ...state, ...times }];
    await notifications.notices.fanOut({ noticeId, state: 'fanned-out', messages });
    return nothing({ id });
  },
  'PUT /api/notifications/escalations/{site}': ({ personId }) =>
    of({ personIds: [personId], afterMin: 20 }, { site: 'yard' }),
  'POST /acknowledge/{secret}': behindLink,
  'POST /told/{secret}': behindLink,

  'POST /api/session': ({ name }) => of({ name, password: passwordOf(name) }),
  'POST /api/links/look': async (laid) => of({ secret: await invited(laid) }),
  'POST /api/links/use': async (laid) => {
    const name = `Guest ${laid.number}`;
    return of({ secret: await invited(laid), name, password: passwordOf(name) });
  },
  'POST /api/tokens': ({ name }) => of({ name: 'script', scope: 'read', password: passwordOf(name) }),
  'DELETE /api/tokens/{id}': async ({ one, headers, personId }) => {
    await makeToken(one.app, headers, 'read');
    return nothing({ id: (await one.installation.journal.tokens.list(personId))[0]?.id ?? '' });
  },
  'PATCH /api/people/{id}': atPerson({ role: 'keeper' }),
  'DELETE /api/people/{id}': atPerson(),
  'POST /api/people/{id}/reset': atPerson(),
  'DELETE /api/people/{id}/held': atPerson(),
  'DELETE /api/people/{id}/sessions': atPerson(),
  'DELETE /api/people/{id}/sessions/{item}': async ({ one, person }) =>
    nothing({ id: person, item: (await one.installation.journal.sessions.list(person))[0]?.id ?? '' }),
  'DELETE /api/people/{id}/tokens/{item}': async ({ one, person, personHeaders }) => {
    await makeToken(one.app, personHeaders, 'read');
    return nothing({ id: person, item: (await one.installation.journal.tokens.list(person))[0]?.id ?? '' });
  },
  'DELETE /api/people/{id}/devices/{item}': async (laid) =>
    nothing({ id: laid.person, item: await deviceFor(laid, laid.personHeaders) }),
  'POST /api/invitations': () => of({ role: 'viewer' }),
  'DELETE /api/invitations/{id}': async ({ send }) =>
    nothing({ id: (await send('POST', '/api/invitations', { role: 'viewer' })).id }),
};
