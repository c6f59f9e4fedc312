/**
 * A small stand-in for the server, so that the pages can be tested alone. It never judges anything: the farm's
 * sentences are fixed.
 */

import { createReadStream, existsSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { z } from 'zod';
import { contentOf } from '../../ingest/mapping/message-content.ts';
import { matchFilter } from '../../ingest/mapping/topic-filter.ts';
import { tryMapping } from '../../ingest/mapping/try-mapping.ts';
import { alarmDetailSchema, shelveSchema } from '../../shared/contracts/alarms.ts';
import { firstMessageAnswerSchema } from '../../shared/contracts/first-message.ts';
import { healthSchema } from '../../shared/contracts/health.ts';
import { foreignMessagesAnswerSchema, refusalsAnswerSchema } from '../../shared/contracts/ingest.ts';
import { type Entry, entriesAnswerSchema, entrySchema, newEntrySchema } from '../../shared/contracts/journal.ts';
import { refusedConnectionsAnswerSchema } from '../../shared/contracts/keys.ts';
import { type LiveEventName, liveEventSchemas } from '../../shared/contracts/live.ts';
import {
  mappingInputSchema,
  mappingSchema,
  mappingsAnswerSchema,
  mappingTrialSchema,
} from '../../shared/contracts/mappings.ts';
import { alarmLinkAnswerSchema } from '../../shared/contracts/notifications.ts';
import { sessionAnswerSchema } from '../../shared/contracts/people.ts';
import {
  finishBatchSchema,
  newActSchema,
  newBatchSchema,
  newPileSchema,
  type PileDetail,
  pileChangeSchema,
  pileDetailSchema,
  pilesAnswerSchema,
} from '../../shared/contracts/piles.ts';
import {
  calibrationSchema,
  claimSchema,
  forgetSchema,
  forgottenSchema,
  type Probe,
  probesAnswerSchema,
} from '../../shared/contracts/probes.ts';
import { problemSchema } from '../../shared/contracts/problem.ts';
import { reachSchema } from '../../shared/contracts/reach.ts';
import { seriesAnswerSchema } from '../../shared/contracts/series.ts';
import { newSiteSchema, sitesAnswerSchema } from '../../shared/contracts/sites.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { message, verbatim } from '../../shared/messages/message.ts';
import { partHealth } from '../../shared/part-health.ts';
import { type MockFarm, mockSeries } from './mock-farm.ts';
import { lifeRoutes } from './mock-life.ts';
import { listMockProbes } from './mock-probes.ts';
import { nothingCameYet, reachedFromHere } from './mock-reach.ts';

/** As strict as the server's own. */
const contentPolicy =
  "default-src 'none'; script-src 'self'; font-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; manifest-src 'self'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'";

export interface MockApi {
  readonly url: string;
  readonly farm: MockFarm;
  /** Every request that was not for a page: "POST /api/piles {...}". */
  readonly asked: string[];
  /** Sends a live event to every page. */
  send<Name extends LiveEventName>(name: Name, data: z.input<(typeof liveEventSchemas)[Name]>): void;
  /** Cuts every live line; with `forbid` new ones are refused until allowed again. */
  cutLive(forbid: boolean): void;
  close(): Promise<void>;
}

export interface MockOptions {
  readonly pagesDir: string;
  readonly farm: MockFarm;
  readonly nowMs: () => number;
  readonly speed?: number;
  readonly token?: string;
}

interface Asked {
  readonly params: readonly string[];
  readonly query: URLSearchParams;
  readonly body: unknown;
}

/** What a route answers: a body with its contract, or a problem. */
type Answer = { status: number; schema: z.ZodType; body: unknown };

class Refused extends Error {
  constructor(
    readonly status: number,
    message: string,
    readonly errors: { pointer: string; detail: string }[] = [],
  ) {
    super(message);
  }
}

export async function startMockApi({ pagesDir, farm, nowMs, speed = 1, token }: MockOptions): Promise<MockApi> {
  const asked: string[] = [];
  const lines = new Set<ServerResponse>();
  const mappings: z.output<typeof mappingsAnswerSchema>['mappings'] = [];
  let liveForbidden = false;

  const ok = (schema: z.ZodType, body: unknown, status = 200): Answer => ({ status, schema, body });
  const done = (): Answer => ok(z.object({}), {});
  const pileOf = (id: string | undefined): PileDetail => {
    const pile = farm.piles.find((one) => one.id === id);
    if (!pile) throw new Refused(404, `No pile "${id}"`);
    return pile;
  };
  const alarmOf = (id: string | undefined) => {
    for (const pile of farm.piles) {
      const alarm = pile.alarms.find((one) => one.id === id);
      if (alarm) return { pile, alarm };
    }
    throw new Refused(404, `No alarm "${id}"`);
  };
  const probeOf = (site: string | undefined, name: string | undefined) => {
    const probe = farm.probes.find((one) => one.site === site && one.probe === name);
    if (!probe) throw new Refused(404, `No probe "${site}/${name}"`);
    return probe;
  };
  const taken = <Schema extends z.ZodType>(schema: Schema, body: unknown): z.output<Schema> => {
    const checked = schema.safeParse(body);
    if (checked.success) return checked.data;
    const errors = checked.error.issues.map((issue) => ({
      pointer: `/${issue.path.join('/')}`,
      detail: issue.message,
    }));
    throw new Refused(400, 'Some fields cannot be used', errors);
  };

  const routes: [method: string, pattern: RegExp, answer: (asked: Asked) => Answer][] = [
    [
      'GET',
      /^\/api\/health$/,
      () =>
        ok(healthSchema, {
          live: true,
          ready: true,
          version: '0.1.0',
          now: toInstant(nowMs()),
          speed,
          needsToken: token !== undefined,
          broker: { url: 'mqtt://0.0.0.0:1883', root: 'piles' },
          parts: {
            broker: partHealth('ok', verbatim('embedded, listening on port 1883')),
            readings: partHealth('ok', verbatim('SQLite, 214,880 readings')),
            journal: partHealth('ok', verbatim('SQLite')),
            piles: partHealth('ok', verbatim('5 piles are watched')),
            disk: partHealth('ok', verbatim('21.4 GB left for the data folder.')),
            delivery: partHealth('off', verbatim('nobody is to be notified yet')),
            audit: partHealth('ok', verbatim('every change is written down')),
          },
        }),
    ],
    ['GET', /^\/api\/piles$/, () => ok(pilesAnswerSchema, { piles: farm.piles })],
    [
      'POST',
      /^\/api\/piles$/,
      ({ body }) => {
        const pile = taken(newPileSchema, body);
        const id = pile.name.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-');
        if (farm.piles.some((one) => one.id === id)) {
          throw new Refused(409, 'A pile of that name lies here already', [{ pointer: '/name', detail: 'is taken' }]);
        }
        const made: PileDetail = {
          id,
          name: pile.name,
          site: pile.site,
          stage: pile.stage,
          batch: {
            id: `${id}-1`,
            startedAt: toInstant(nowMs()),
            progress: 0,
            phase: 'resting',
            phaseReason: 'Just laid.',
          },
          positions: {},
          condition: 'No probe in this pile has spoken yet.',
          next: 'Claim a probe that is already talking, or see that it has power and reaches the network.',
          tone: 'watch',
          alarms: [],
          recipe: pile.recipe ?? {},
          assumed: [],
          limits: {},
          acts: [],
          judgement: null,
          evidence: [],
        };
        farm.piles.push(made);
        return ok(pileDetailSchema, made, 201);
      },
    ],
    ['GET', /^\/api\/piles\/([^/]+)$/, ({ params }) => ok(pileDetailSchema, pileOf(params[0]))],
    [
      'PATCH',
      /^\/api\/piles\/([^/]+)$/,
      ({ params, body }) => {
        const pile = pileOf(params[0]);
        const { limits = {}, name } = taken(pileChangeSchema, body);
        if (name !== undefined) pile.name = name;
        for (const [key, value] of Object.entries(limits)) {
          if (value !== undefined)
            pile.limits[key] = {
              value,
              unit: pile.limits[key]?.unit ?? '',
              origin: 'set for this batch',
              messages: { origin: message('origin.set-for-batch') },
            };
        }
        return ok(pileDetailSchema, pile);
      },
    ],
    [
      'DELETE',
      /^\/api\/piles\/([^/]+)$/,
      ({ params }) => {
        const pile = pileOf(params[0]);
        if (pile.acts.length > 0) {
          throw new Refused(409, `Cannot remove pile "${pile.id}" as nothing may hang on it: it has an entry`);
        }
        farm.piles.splice(farm.piles.indexOf(pile), 1);
        return done();
      },
    ],
    [
      'GET',
      /^\/api\/piles\/([^/]+)\/entries$/,
      ({ params, query }) => {
        if (farm.entries === null) throw new Refused(404, 'No entries are kept here');
        const kind = query.get('kind');
        const entries = farm.entries.filter(
          (entry) => entry.pileId === params[0] && (kind === null || entry.what.kind === kind),
        );
        return ok(entriesAnswerSchema, { entries: entries.toReversed(), next: null });
      },
    ],
    [
      'POST',
      /^\/api\/piles\/([^/]+)\/entries$/,
      ({ params, body }) => {
        if (farm.entries === null) throw new Refused(404, 'No entries are kept here');
        const pile = pileOf(params[0]);
        const { id, at, by, note, photoIds, what } = taken(newEntrySchema, body);
        const entry: Entry = {
          id: id ?? `e${asked.length}`,
          versionId: `v${asked.length}`,
          version: 1,
          pileId: pile.id,
          batchId: pile.batch?.id ?? null,
          at: toInstant(at ?? nowMs()),
          recordedAt: toInstant(nowMs()),
          by: by ?? null,
          note: note ?? null,
          photoIds,
          what,
          says: what.kind,
          moistureFrac: null,
          reason: null,
          withdrawn: false,
        };
        farm.entries.push(entry);
        return ok(entrySchema, entry, 201);
      },
    ],
    [
      'POST',
      /^\/api\/piles\/([^/]+)\/finish$/,
      ({ params, body }) => {
        taken(finishBatchSchema, body);
        const pile = pileOf(params[0]);
        pile.batch = null;
        return ok(pileDetailSchema, pile);
      },
    ],
    [
      'POST',
      /^\/api\/piles\/([^/]+)\/batches$/,
      ({ params, body }) => {
        const { stage } = taken(newBatchSchema, body);
        const pile = pileOf(params[0]);
        pile.stage = stage;
        pile.batch = {
          id: `${pile.id}-2`,
          startedAt: toInstant(nowMs()),
          progress: 0,
          phase: 'resting',
          phaseReason: 'Just laid.',
        };
        return ok(pileDetailSchema, pile, 201);
      },
    ],
    [
      'POST',
      /^\/api\/piles\/([^/]+)\/acts$/,
      ({ params, body }) => {
        const { at, ...act } = taken(newActSchema, body);
        const record = { ...act, id: `x${farm.piles.length}-${asked.length}`, at: toInstant(at ?? nowMs()) };
        pileOf(params[0]).acts.push(record as PileDetail['acts'][number]);
        return ok(z.object({ id: z.string() }), record, 201);
      },
    ],
    [
      'GET',
      /^\/api\/piles\/([^/]+)\/series$/,
      ({ params, query }) => {
        const at = (name: string) => Date.parse(query.get(name) ?? '');
        return ok(
          seriesAnswerSchema,
          mockSeries(pileOf(params[0]), at('from'), at('to'), Number(query.get('points')), nowMs()),
        );
      },
    ],
    [
      'GET',
      /^\/api\/alarms\/([^/]+)$/,
      ({ params }) => {
        const { pile, alarm } = alarmOf(params[0]);
        const step = {
          at: alarm.since,
          from: 'normal',
          to: alarm.state,
          arrow: 'acknowledged',
          by: null,
          note: null,
        };
        return ok(alarmDetailSchema, { ...alarm, pileId: pile.id, steps: [step] });
      },
    ],
    [
      'GET',
      /^\/api\/alarms\/([^/]+)\/notifications$/,
      ({ params }) => {
        const { alarm } = alarmOf(params[0]);
        const attempt = {
          number: 1,
          at: alarm.since,
          tookMs: 120,
          outcome: 'failed' as const,
          ...inWords({ detail: verbatim('451 come back later') }, 0),
        };
        const sent = {
          ...attempt,
          number: 2,
          outcome: 'sent' as const,
          ...inWords({ detail: verbatim('250 taken') }, 0),
        };
        const message = {
          id: `told-${alarm.id}`,
          person: 'Ada',
          channel: 'email' as const,
          address: 'ada@saltmere.example',
          state: 'sent' as const,
          ...inWords({ reason: null }, 0),
          madeAt: alarm.since,
          doneAt: alarm.since,
          notBefore: alarm.since,
          attempts: [attempt, sent],
        };
        const notice = {
          id: `notice-${alarm.id}`,
          about: 'alarm' as const,
          reason: 'first-raise' as const,
          at: alarm.since,
        };
        return ok(alarmLinkAnswerSchema, { notices: [{ ...notice, state: 'fanned-out', messages: [message] }] });
      },
    ],
    [
      'POST',
      /^\/api\/alarms\/([^/]+)\/(acknowledge|shelve|unshelve)$/,
      ({ params, body }) => {
        const { pile, alarm } = alarmOf(params[0]);
        if (params[1] === 'acknowledge') alarm.state = 'acknowledged';
        if (params[1] === 'unshelve') Object.assign(alarm, { state: 'unacknowledged', shelvedUntil: null });
        if (params[1] === 'shelve') {
          const { minutes } = taken(shelveSchema, body);
          Object.assign(alarm, { state: 'shelved', shelvedUntil: toInstant(nowMs() + minutes * 60_000) });
        }
        return ok(alarmDetailSchema, { ...alarm, pileId: pile.id, steps: [] });
      },
    ],
    ['GET', /^\/api\/sites$/, () => ok(sitesAnswerSchema, { sites: farm.sites })],
    [
      'POST',
      /^\/api\/sites$/,
      ({ body }) => {
        const { name, timeZone = null } = taken(newSiteSchema, body);
        const site = {
          id: name.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-'),
          name,
          timeZone,
          latitude: null,
          longitude: null,
        };
        farm.sites.push(site);
        return ok(z.object({ id: z.string() }), site, 201);
      },
    ],
    ['GET', /^\/api\/probes$/, ({ query }) => ok(probesAnswerSchema, listMockProbes(farm.probes, query))],
    [
      'POST',
      /^\/api\/probes\/([^/]+)\/([^/]+)\/claim$/,
      ({ params, body }) => {
        const { pileId, position, from } = taken(claimSchema, body);
        const pile = pileOf(pileId);
        if (pile.positions[position]) {
          throw new Refused(409, `The ${position} of ${pile.name} has a probe already`, [
            { pointer: '/position', detail: 'another probe sits there' },
          ]);
        }
        const probe = probeOf(params[0], params[1]);
        probe.claim = { pileId, position, since: toInstant(from ?? nowMs()) };
        pile.positions[position] = { probe: probe.probe, ...probe.last, at: toInstant(nowMs()), silent: false };
        return done();
      },
    ],
    [
      'DELETE',
      /^\/api\/probes\/([^/]+)\/([^/]+)\/claim$/,
      ({ params }) => {
        probeOf(params[0], params[1]).claim = null;
        return done();
      },
    ],
    [
      'DELETE',
      /^\/api\/probes\/([^/]+)\/([^/]+)$/,
      ({ params }) => {
        farm.probes.splice(farm.probes.indexOf(probeOf(params[0], params[1])), 1);
        return ok(forgottenSchema, { forgotten: 1, kept: 0 });
      },
    ],
    [
      'POST',
      /^\/api\/probes\/forget$/,
      ({ body }) => {
        const { find } = taken(forgetSchema, body);
        const isGone = (probe: Probe) => probe.claim === null && `${probe.site}/${probe.probe}`.includes(find);
        const forgotten = farm.probes.filter(isGone).length;
        farm.probes = farm.probes.filter((probe) => !isGone(probe));
        return ok(forgottenSchema, { forgotten, kept: 0 });
      },
    ],
    [
      'PUT',
      /^\/api\/probes\/([^/]+)\/([^/]+)\/calibration$/,
      ({ params, body }) => {
        probeOf(params[0], params[1]).temperatureOffsetC = taken(calibrationSchema, body).temperatureOffsetC;
        return done();
      },
    ],
    ['GET', /^\/api\/ingest\/refusals$/, () => ok(refusalsAnswerSchema, farm.refusals)],
    ['GET', /^\/api\/ingest\/refused-connections$/, () => ok(refusedConnectionsAnswerSchema, farm.turnedAway)],
    ['GET', /^\/api\/ingest\/first-message$/, () => ok(firstMessageAnswerSchema, nothingCameYet)],
    ['GET', /^\/api\/reach$/, () => ok(reachSchema, reachedFromHere)],
    ['POST', /^\/api\/ingest\/listen$/, done],
    [
      'GET',
      /^\/api\/ingest\/foreign$/,
      () =>
        ok(foreignMessagesAnswerSchema, {
          messages: farm.messages.map((one) => ({
            ...one,
            isRetained: false,
            isUsed: mappings.some(({ filter }) => matchFilter(filter, one.topic) !== undefined),
            site: null,
            content: contentOf(one.topic, one.payload),
          })),
        }),
    ],
    [
      'POST',
      /^\/api\/mappings\/try$/,
      ({ body }) => {
        const said = farm.messages.map(({ at, ...one }) => ({ ...one, atMs: Date.parse(at), isRetained: false }));
        return ok(mappingTrialSchema, tryMapping(taken(mappingInputSchema, body), said));
      },
    ],
    ['GET', /^\/api\/mappings$/, () => ok(mappingsAnswerSchema, { mappings })],
    [
      'POST',
      /^\/api\/mappings$/,
      ({ body }) => {
        mappings.push({ ...taken(mappingInputSchema, body), id: `m${mappings.length + 1}` });
        return ok(z.object({ id: z.string() }), mappings.at(-1), 201);
      },
    ],
    [
      'PUT',
      /^\/api\/mappings\/([^/]+)$/,
      ({ params, body }) => {
        const changed = { ...taken(mappingInputSchema, body), id: params[0] ?? '' };
        mappings.splice(
          mappings.findIndex((one) => one.id === params[0]),
          1,
          changed,
        );
        return ok(mappingSchema, changed);
      },
    ],
    [
      'DELETE',
      /^\/api\/mappings\/([^/]+)$/,
      ({ params }) => {
        mappings.splice(
          mappings.findIndex((one) => one.id === params[0]),
          1,
        );
        return done();
      },
    ],
    ...lifeRoutes({
      farm,
      nowMs,
      ok,
      taken,
      refuse: (status, message, pointer) =>
        new Refused(status, message, pointer === undefined ? [] : [{ pointer, detail: message }]),
    }),
  ];

  const server = createServer((request, response) => {
    answer(request, response).catch((error: unknown) => {
      const refused = error instanceof Refused ? error : new Refused(500, String(error));
      const problem = {
        type: 'about:blank',
        title: 'Refused',
        status: refused.status,
        detail: refused.message,
        ...(refused.errors.length > 0 ? { errors: refused.errors } : {}),
      };
      response.writeHead(refused.status, { 'content-type': 'application/problem+json' });
      response.end(JSON.stringify(problemSchema.parse(problem)));
    });
  });

  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { pathname, searchParams } = new URL(request.url ?? '/', 'http://mock');
    if (!pathname.startsWith('/api/')) return sendPage(pathname, response);
    const isFile = /^image\//.test(request.headers['content-type'] ?? '');
    const text = isFile ? '' : await textOf(request);
    asked.push(`${request.method} ${pathname} ${text}`.trim());
    if (request.method === 'GET' && pathname === '/api/session') {
      const isIn = token === undefined || request.headers.authorization === `Bearer ${token}`;
      const via = token === undefined ? 'here' : 'token';
      const person = isIn ? { id: via, name: 'This machine', role: 'owner', via } : null;
      const body = sessionAnswerSchema.parse({ person, hasOwner: false, hasToken: token !== undefined });
      response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify(body));
      return;
    }
    if (token !== undefined && pathname !== '/api/health' && request.headers.authorization !== `Bearer ${token}`) {
      throw new Refused(401, 'Send the API token as a bearer token');
    }
    if (pathname === '/api/live') return openLine(request, response);
    for (const [method, pattern, act] of routes) {
      const found = method === request.method ? pattern.exec(pathname) : null;
      if (!found) continue;
      const params = found.slice(1).map(decodeURIComponent);
      const { status, schema, body } = act({ params, query: searchParams, body: text ? JSON.parse(text) : undefined });
      schema.parse(body);
      response.writeHead(status, { 'content-type': 'application/json' });
      response.end(JSON.stringify(body));
      return;
    }
    throw new Refused(404, `Nothing answers ${request.method} ${pathname}`);
  }

  function sendPage(pathname: string, response: ServerResponse): void {
    const path = join(pagesDir, normalize(pathname));
    const file = extname(path) && existsSync(path) ? path : join(pagesDir, 'index.html');
    const types: Record<string, string> = {
      '.html': 'text/html',
      '.js': 'text/javascript',
      '.css': 'text/css',
      '.svg': 'image/svg+xml',
    };
    response.writeHead(200, {
      'content-type': types[extname(file)] ?? 'application/octet-stream',
      'content-security-policy': contentPolicy,
    });
    createReadStream(file).pipe(response);
  }

  function openLine(request: IncomingMessage, response: ServerResponse): void {
    if (liveForbidden) throw new Refused(503, 'Not now');
    response.writeHead(200, { 'content-type': 'text/event-stream' });
    response.write(eventText('hello', { now: toInstant(nowMs()), speed }));
    lines.add(response);
    request.on('close', () => lines.delete(response));
  }

  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    farm,
    asked,
    send(name, data) {
      for (const line of lines) line.write(eventText(name, data));
    },
    cutLive(forbid) {
      liveForbidden = forbid;
      for (const line of lines) line.destroy();
      lines.clear();
    },
    async close() {
      for (const line of lines) line.destroy();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

function eventText<Name extends LiveEventName>(name: Name, data: z.input<(typeof liveEventSchemas)[Name]>): string {
  const schema: z.ZodType = liveEventSchemas[name];
  return `event: ${name}\ndata: ${JSON.stringify(schema.parse(data))}\n\n`;
}

async function textOf(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString('utf8');
}
