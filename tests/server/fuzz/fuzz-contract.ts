/**
 * Every route of the description is asked by nobody, a viewer, a keeper and an owner: with what its schema allows, with that
 * spoilt, and with what must succeed. BRANHEARTH_FUZZ_SEED and BRANHEARTH_FUZZ_RUNS for others than the usual; a failure
 * prints both.
 */
import fc from 'fast-check';
import type { InjectOptions } from 'fastify';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { isAllowed, type Role } from '../../../shared/person.ts';
import { commitReadings } from '../../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { as, freshAddress, join, settlePeople } from '../../helpers/people.ts';
import { accessTable } from '../access/access-table.ts';
import type { JournalPrint } from './journal-print.ts';
import { allowedBy, type JsonSchema, nasty, spoiltFrom } from './schema-arbitrary.ts';
import { type Asked, type Laid, wellFormed } from './well-formed.ts';

const seed = Number(process.env.BRANHEARTH_FUZZ_SEED ?? 20311129);

interface FuzzedJournal {
  /** What the program is told of it; nothing for a file in the data folder. */
  readonly environment: Record<string, string>;
  print(dataDir: string): Promise<JournalPrint>;
  remove(): Promise<void>;
}

export interface FuzzOptions {
  open(): Promise<FuzzedJournal>;
  /** Of those who may change something. */
  readonly callers: readonly ('keeper' | 'owner')[];
  /** How often each of them asks each route. */
  readonly runs: number;
}

interface Parameter {
  readonly name: string;
  readonly in: 'path' | 'query' | 'header';
  readonly required?: boolean;
  readonly schema: JsonSchema;
}
interface Operation {
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly content: Record<string, { readonly schema?: JsonSchema }> };
}

/** They sign somebody else in where somebody was signed in before, so they are asked by nobody. */
const startsSession = new Set(['POST /api/session', 'POST /api/links/use']);

/** They end the session with which the others are asked. */
const endsOwnSession = new Set([
  'DELETE /api/session',
  'DELETE /api/me/sessions',
  'DELETE /api/me/sessions/{id}',
  'PUT /api/me/password',
]);

let one: TestInstallation;
let remove: () => Promise<void>;
let journal: FuzzedJournal;
let print: JournalPrint;
let runs: number;
let picture: Buffer;
let operations: Map<string, Operation>;
let headersOf: Record<string, Record<string, string>>;
const known: Record<string, string[]> = {};

async function openFuzzed(options: FuzzOptions): Promise<void> {
  journal = await options.open();
  runs = Number(process.env.BRANHEARTH_FUZZ_RUNS ?? options.runs);
  const folder = await makeDataDir();
  remove = folder.remove;
  // Nothing leaves this machine, whatever address a body names.
  const lookup = (_name: string, _options: unknown, done: (error: Error) => void) => done(new Error('no names here'));
  // A mail server that takes nothing, so that everything about mail can be asked.
  const mail = { SMTP_URL: 'smtp://127.0.0.1:1', MAIL_FROM: 'farm@saltmere.example' };
  const environment = { ...mail, ...journal.environment };
  one = await openTestInstallation(folder.dataDir, environment, undefined, { guard: { lookup: lookup as never } });
  const people = await settlePeople(one);
  headersOf = { nobody: {}, viewer: people.viewer, keeper: people.keeper, owner: people.owner };
  picture = await sharp({ create: { width: 4, height: 4, channels: 3, background: '#864' } })
    .png()
    .toBuffer();
  print = await journal.print(folder.dataDir);
  const { paths } = (await one.app.inject({ url: '/api/openapi.json', headers: people.owner })).json<{
    paths: Record<string, Record<string, Operation>>;
  }>();
  operations = new Map(
    Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => [`${method.toUpperCase()} ${path}`, operation] as const),
    ),
  );
}

async function closeFuzzed(): Promise<void> {
  await print?.close();
  await one?.close();
  await remove?.();
  await journal?.remove();
}

let made = 0;

/** Something of each kind that no route has touched yet, so that ids lead somewhere. */
async function settleAnew(caller: string): Promise<Laid> {
  made += 1;
  const headers = headersOf.owner ?? {};
  const send = async (method: 'POST' | 'PUT', url: string, payload: object | Buffer, type = 'application/json') => {
    const answer = await one.app.inject({ method, url, headers: { ...headers, 'content-type': type }, payload });
    expect([url, answer.statusCode < 300 ? '' : answer.body]).toEqual([url, '']);
    return answer.json<{ id: string }>();
  };
  const startedAt = new Date(Date.now() - 50 * 3_600_000).toISOString();
  const piles = [`bay-${made}`, `shed-${made}`];
  const probe = `p${made}`;
  if (made === 1) await send('POST', '/api/sites', { id: 'yard', name: 'Yard' });
  for (const id of piles) await send('POST', '/api/piles', { id, site: 'yard', name: id, stage: 'bran', startedAt });
  const lot = await send('POST', '/api/lots', {
    name: `Bran ${made}`,
    facts: { kind: 'material', material: 'wheat-bran' },
  });
  const note = { id: `note-${made}-of-the-test`, note: 'Laid it.', what: { kind: 'note' } };
  const entry = await send('POST', `/api/piles/${piles[0]}/entries`, note);
  const key = await send('POST', '/api/keys', { name: 'One', site: 'yard', probe, foreign: [], hears: 'own' });
  const photoId = `photo-${made}-of-the-test`;
  await send('PUT', `/api/photos/${photoId}`, picture, 'image/png');
  const reading = { site: 'yard', probe, quantity: 'temperature', atMs: Date.now() - 3_600_000, value: 41 } as const;
  await commitReadings(one.installation, [reading]);
  const personHeaders = as(await join(one, `Spare ${made}`, 'viewer'));
  const person = await one.installation.journal.people.byNameKey(`spare ${made}`);
  const batches = (await one.installation.journal.batches.list())
    .filter(({ pileId }) => piles.includes(pileId))
    .map(({ id }) => id);
  for (const name of Object.keys(known)) delete known[name];
  Object.assign(known, {
    ...{ piles, batches, lots: [lot.id], entries: [entry.id], keys: [key.id], people: [person?.id ?? ''] },
    ...{ photos: [photoId], photoId: [photoId], personId: [person?.id ?? ''], site: ['yard'], probe: [probe] },
    ...{ pile: piles, pileId: piles, batch: batches, batchId: batches, lotId: [lot.id], replaces: [entry.id] },
    ...{ subject: ['piles', 'entries'], timeZone: ['Europe/Lisbon', 'No/Such', 'UTC'] },
  });
  const own = headersOf[caller] ?? {};
  const name = { owner: 'Olive', keeper: 'Kim' }[caller] ?? 'Vera';
  return {
    ...{ one, number: made, piles, batches, lot: lot.id, entry: entry.id, key: key.id, probe, photo: photoId },
    ...{ person: person?.id ?? '', personHeaders, headers: own, name },
    personId: (await one.installation.journal.people.byNameKey(name.toLowerCase()))?.id ?? '',
    async send(method, url, payload) {
      const answer = await one.app.inject({ method, url, headers: own, payload });
      expect([url, answer.statusCode < 300 ? '' : answer.body]).toEqual([url, '']);
      return answer.json<{ id: string }>();
    },
    read: async (url) => (await one.app.inject({ url, headers: own })).json(),
  };
}

const texts = fc.constantFrom(...nasty.filter((one): one is string => typeof one === 'string' && one.length < 200));

function askedOf(route: string, { parameters = [], requestBody }: Operation): fc.Arbitrary<Asked> {
  // /api/lots/{id}: an id of lots.
  const textFor = ({ name, schema }: Parameter) => {
    const collection = new RegExp(`/([a-z-]+)/\\{${name}\\}`).exec(route)?.[1] ?? '';
    const own = known[name] === undefined && known[collection] ? collection : name;
    return fc.oneof({ arbitrary: allowedBy(schema, known, own).map(String), weight: 6 }, texts);
  };
  const of = (place: Parameter['in']) => parameters.filter((parameter) => parameter.in === place);
  const query = of('query').map((parameter) => {
    const given = textFor(parameter).map((text): [string, string][] => [[parameter.name, text]]);
    const none = fc.constant<[string, string][]>([]);
    return parameter.required ? given : fc.oneof(given, { arbitrary: none, weight: 2 });
  });
  const schema = Object.values(requestBody?.content ?? {})[0]?.schema;
  const body = schema === undefined ? undefined : allowedBy(schema, known);
  return fc.record({
    params: fc.record(Object.fromEntries(of('path').map((parameter) => [parameter.name, textFor(parameter)]))),
    query: fc.tuple(...query).map((parts) => parts.flat()),
    body:
      body === undefined
        ? fc.constant(undefined)
        : fc.oneof({ arbitrary: body, weight: 2 }, spoiltFrom(body), spoiltFrom(spoiltFrom(body))),
  });
}

const patienceMs = 60_000;

/** @returns The status. @throws When nothing is answered. */
async function ask(route: string, { params, query, body }: Asked, caller: string): Promise<number> {
  const [method, path = ''] = route.split(' ');
  // A lone half of a character cannot stand in an address.
  const piece = (text: string) => encodeURIComponent(Buffer.from(text).toString()) || '%20';
  const url = path.replaceAll(/\{([^}]+)\}/g, (_, name: string) => piece(params[name] ?? ''));
  const asked = query.map(([name, text]) => `${piece(name)}=${piece(text)}`).join('&');
  const isPicture = route === 'PUT /api/photos/{id}';
  const timer = { stop: () => {} };
  const unanswered = new Promise<never>((_, reject) => {
    const late = setTimeout(() => reject(new Error(`${route} was not answered`)), patienceMs);
    timer.stop = () => clearTimeout(late);
  });
  const answer = await Promise.race([
    unanswered,
    one.app.inject({
      method: method as NonNullable<InjectOptions['method']>,
      url: asked === '' ? url : `${url}?${asked}`,
      headers: {
        ...(startsSession.has(route) ? {} : headersOf[caller]),
        ...(body !== undefined && { 'content-type': isPicture ? 'image/png' : 'application/json' }),
      },
      ...(body !== undefined && {
        payload: isPicture
          ? typeof body === 'string'
            ? picture
            : Buffer.from(JSON.stringify(body))
          : JSON.stringify(body),
      }),
      remoteAddress: freshAddress(),
      payloadAsStream: true,
    }),
  ]);
  const stream = answer.stream();
  // The stream of changes never ends by itself.
  if (path === '/api/live') stream.destroy();
  else for await (const _ of stream) await Promise.race([unanswered, Promise.resolve()]);
  timer.stop();
  return answer.statusCode;
}

/** How often each route was answered with each status. */
const statuses = new Map<string, Map<number, number>>();

function count(route: string, status: number): void {
  const counted = statuses.get(route) ?? new Map<number, number>();
  statuses.set(route, counted.set(status, (counted.get(status) ?? 0) + 1));
}

/** Asks one route so many times; what it must hold each time is up to the caller. @param good What must succeed, asked first. */
async function fuzz(
  route: string,
  caller: string,
  holds: (status: number, asked: Asked) => Promise<void> | void,
  good?: Asked,
): Promise<void> {
  const operation = operations.get(route);
  if (operation === undefined) throw new Error(`${route} is not described`);
  const any = askedOf(route, operation);
  const asks = good ? fc.oneof({ arbitrary: any, weight: 3 }, fc.constant(good)) : any;
  await fc.assert(
    fc.asyncProperty(asks, async (asked) => {
      const status = await ask(route, asked, caller);
      count(route, status);
      expect([route, caller, status < 500 ? 'answered' : status]).toEqual([route, caller, 'answered']);
      await holds(status, asked);
    }),
    { seed, numRuns: runs, endOnFailure: true, examples: good ? [[good]] : [] },
  );
}

const routes = Object.keys(accessTable).filter((route) => !endsOwnSession.has(route));

export function fuzzContract(name: string, options: FuzzOptions): void {
  describe(name, () => {
    beforeAll(() => openFuzzed(options), 60_000);
    afterAll(closeFuzzed);

    for (const caller of ['nobody', 'viewer']) {
      test(`${caller}: each route answers, and nothing that people keep is changed`, async () => {
        await settleAnew(caller);
        await print.changed();
        for (const route of routes) {
          await fuzz(route, caller, () => {});
          expect([route, await print.changed()]).toEqual([route, []]);
        }
      }, 300_000);
    }

    for (const caller of options.callers) {
      for (const route of routes) {
        test(`${caller}: ${route} answers, and no change is without its row in the audit trail`, async () => {
          const good = await goodFor(route, caller);
          await print.changed();
          let rows = await print.auditRows();
          await fuzz(
            route,
            caller,
            async () => {
              const [before, after] = [rows, await print.auditRows()];
              rows = after;
              const changed = await print.changed();
              expect([route, changed, after > before || changed.length === 0]).toEqual([route, changed, true]);
            },
            good,
          );
        });
      }
    }

    test('each route that changes something did so at least once', () => {
      const never = routes.filter((route) => {
        const counted = statuses.get(route);
        return !route.startsWith('GET ') && counted && ![...counted.keys()].some((status) => status < 300);
      });
      expect(never.map((route) => [route, [...(statuses.get(route) ?? [])]])).toEqual([]);
    });
  });
}

/** What is only read may have been touched before, and whoever may not change anything needs nothing to do so. */
async function goodFor(route: string, caller: Role): Promise<Asked | undefined> {
  const changes = !route.startsWith('GET ') && isAllowed(caller, accessTable[route] ?? 'owner');
  if (!changes && made > 0) return undefined;
  const laid = await settleAnew(caller);
  const good = wellFormed[route];
  return good && { params: {}, query: [], body: undefined, ...(await good(laid)) };
}
