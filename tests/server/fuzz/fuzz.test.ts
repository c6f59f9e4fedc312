/**
 * Every route of the description is asked by nobody, a viewer, a keeper and an owner, with what its schema allows and with
 * that spoilt. BRANHEARTH_FUZZ_SEED and BRANHEARTH_FUZZ_RUNS for others than the usual; a failure prints both.
 */
import fc from 'fast-check';
import type { InjectOptions } from 'fastify';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commitReadings } from '../../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { freshAddress, join, settlePeople } from '../../helpers/people.ts';
import { accessTable } from '../access/access-table.ts';
import { type JournalPrint, openJournalPrint } from './journal-print.ts';
import { allowedBy, type JsonSchema, nasty, spoiltFrom } from './schema-arbitrary.ts';

const seed = Number(process.env.BRANHEARTH_FUZZ_SEED ?? 20311129);
const runs = Number(process.env.BRANHEARTH_FUZZ_RUNS ?? 8);

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

/** They end the session with which the others are asked. */
const endsOwnSession = new Set([
  'DELETE /api/session',
  'DELETE /api/me/sessions',
  'DELETE /api/me/sessions/{id}',
  'PUT /api/me/password',
]);

let one: TestInstallation;
let remove: () => Promise<void>;
let print: JournalPrint;
let picture: Buffer;
let operations: Map<string, Operation>;
let headersOf: Record<string, Record<string, string>>;
const known: Record<string, string[]> = {};

beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  // Nothing leaves this machine, whatever address a body names.
  const lookup = (_name: string, _options: unknown, done: (error: Error) => void) => done(new Error('no names here'));
  one = await openTestInstallation(folder.dataDir, {}, undefined, { guard: { lookup: lookup as never } });
  const people = await settlePeople(one);
  headersOf = { nobody: {}, viewer: people.viewer, keeper: people.keeper, owner: people.owner };
  picture = await sharp({ create: { width: 4, height: 4, channels: 3, background: '#864' } })
    .png()
    .toBuffer();
  print = openJournalPrint(folder.dataDir);
  const { paths } = (await one.app.inject({ url: '/api/openapi.json', headers: people.owner })).json<{
    paths: Record<string, Record<string, Operation>>;
  }>();
  operations = new Map(
    Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => [`${method.toUpperCase()} ${path}`, operation] as const),
    ),
  );
});
afterAll(async () => {
  print?.close();
  await one?.close();
  await remove?.();
});

let made = 0;

/** Something of each kind that no route has touched yet, so that ids lead somewhere. */
async function settleAnew(): Promise<void> {
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
  await join(one, `Spare ${made}`, 'viewer');
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
}

interface Asked {
  readonly params: Record<string, string>;
  readonly query: [string, string][];
  readonly body: unknown;
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
        ...headersOf[caller],
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

/** Asks one route so many times; what it must hold each time is up to the caller. */
async function fuzz(
  route: string,
  caller: string,
  holds: (status: number, asked: Asked) => Promise<void> | void,
): Promise<void> {
  const operation = operations.get(route);
  if (operation === undefined) throw new Error(`${route} is not described`);
  await fc.assert(
    fc.asyncProperty(askedOf(route, operation), async (asked) => {
      const status = await ask(route, asked, caller);
      expect([route, caller, status < 500 ? 'answered' : status]).toEqual([route, caller, 'answered']);
      await holds(status, asked);
    }),
    { seed, numRuns: runs, endOnFailure: true },
  );
}

const routes = Object.keys(accessTable).filter((route) => !endsOwnSession.has(route));

describe('whatever is sent by', () => {
  for (const caller of ['nobody', 'viewer']) {
    test(`${caller}: each route answers, and nothing that people keep is changed`, async () => {
      await settleAnew();
      print.changed();
      for (const route of routes) {
        await fuzz(route, caller, () => {});
        expect([route, print.changed()]).toEqual([route, []]);
      }
    }, 300_000);
  }

  for (const caller of ['keeper', 'owner']) {
    describe(caller, () => {
      for (const route of routes) {
        test(`${route} answers, and no change is without its row in the audit trail`, async () => {
          // What is only read may have been touched before.
          if (!route.startsWith('GET ') || made === 0) await settleAnew();
          print.changed();
          let rows = print.auditRows();
          await fuzz(route, caller, () => {
            const [before, after] = [rows, print.auditRows()];
            rows = after;
            const changed = print.changed();
            expect([route, changed, after > before || changed.length === 0]).toEqual([route, changed, true]);
          });
        }, 60_000);
      }
    });
  }
});
