/**
 * Routes of the journal, batches, lots, lineage, records and imports for the stand-in server. It never sums or judges:
 * amounts and words are fixed.
 */
import type { z } from 'zod';
import {
  importAskSchema,
  importCommitSchema,
  importDoneSchema,
  importPreviewSchema,
} from '../../shared/contracts/import.ts';
import {
  correctionSchema,
  type Entry,
  type EntryVersion,
  entryDetailSchema,
  entrySchema,
  newEntrySchema,
  photoSchema,
  queuedAnswerSchema,
  queuedEntriesSchema,
  withdrawalSchema,
} from '../../shared/contracts/journal.ts';
import {
  abandonSchema,
  addInputSchema,
  batchDetailSchema,
  batchesAnswerSchema,
  batchPeaksAnswerSchema,
  continueBatchSchema,
  keepLotSchema,
  lineageAnswerSchema,
  mergeBatchesSchema,
  newUseSchema,
  outcomeSchema,
  splitBatchSchema,
} from '../../shared/contracts/lineage.ts';
import { lotChangeSchema, lotSchema, lotsAnswerSchema, newLotSchema } from '../../shared/contracts/lots.ts';
import { readinessSchema } from '../../shared/contracts/readiness.ts';
import { batchRecordSchema, calendarSchema, labelSchema } from '../../shared/contracts/records.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { message, verbatim } from '../../shared/messages/message.ts';
import { detailOf, mockFamily, nodesOf, readinessOf, recordOf } from './mock-family.ts';
import type { MockFarm } from './mock-farm.ts';

type Answer = { status: number; schema: z.ZodType; body: unknown };
interface Asked {
  readonly params: readonly string[];
  readonly query: URLSearchParams;
  readonly body: unknown;
}
export type LifeRoute = [method: string, pattern: RegExp, answer: (asked: Asked) => Answer];

interface Stand {
  readonly farm: MockFarm;
  readonly nowMs: () => number;
  readonly ok: (schema: z.ZodType, body: unknown, status?: number) => Answer;
  readonly taken: <Schema extends z.ZodType>(schema: Schema, body: unknown) => z.output<Schema>;
  readonly refuse: (status: number, message: string, pointer?: string) => Error;
}

export function lifeRoutes({ farm, nowMs, ok, taken, refuse }: Stand): LifeRoute[] {
  const family = mockFamily(nowMs());
  const earlier = new Map<string, EntryVersion[]>();
  let calendarSecret = 'first-secret';

  const entries = (): Entry[] => {
    if (farm.entries === null) throw refuse(404, 'No entries are kept here');
    return farm.entries;
  };
  const entryOf = (id: string | undefined): Entry => {
    const found = entries().find((one) => one.id === id);
    if (!found) throw refuse(404, `No entry "${id}"`);
    return found;
  };
  const replace = (before: Entry, change: Partial<Entry>): Entry => {
    earlier.set(before.id, [before, ...(earlier.get(before.id) ?? [])]);
    const version = before.version + 1;
    const next = {
      ...before,
      ...change,
      version,
      versionId: `${before.id}.${version}`,
      recordedAt: toInstant(nowMs()),
    };
    entries().splice(entries().indexOf(before), 1, next);
    return next;
  };
  const made = (pileId: string, entry: z.output<typeof newEntrySchema>): Entry => ({
    id: entry.id ?? `e${entries().length}`,
    versionId: `v${entries().length}`,
    version: 1,
    pileId,
    batchId: farm.piles.find((one) => one.id === pileId)?.batch?.id ?? null,
    at: toInstant(entry.at ?? nowMs()),
    recordedAt: toInstant(nowMs()),
    by: entry.by ?? null,
    note: entry.note ?? null,
    photoIds: entry.photoIds,
    what: entry.what,
    says: entry.what.kind,
    moistureFrac: null,
    reason: null,
    withdrawn: false,
  });
  const batch = (id: string | undefined) => {
    const detail = detailOf(family, id ?? '');
    if (!detail) throw refuse(404, `No batch "${id}"`);
    return detail;
  };
  const step = (name: string, schema: z.ZodType, status = 200): LifeRoute => [
    'POST',
    new RegExp(`^/api/batches/([^/]+)/${name}$`),
    ({ params, body }) => {
      taken(schema, body);
      return ok(batchDetailSchema, batch(params[0]), status);
    },
  ];

  return [
    [
      'POST',
      /^\/api\/entries$/,
      ({ body }) => {
        const outcomes = taken(queuedEntriesSchema, body).entries.map(({ pileId, entry }) => {
          const checked = newEntrySchema.safeParse(entry);
          if (!checked.success) {
            return { id: entry.id, outcome: 'refused' as const, detail: 'Some fields cannot be used', pointer: null };
          }
          if (!farm.piles.some((one) => one.id === pileId)) {
            return { id: entry.id, outcome: 'refused' as const, detail: `No pile "${pileId}"`, pointer: '/pileId' };
          }
          if (entries().some((one) => one.id === entry.id)) {
            return { id: entry.id, outcome: 'known' as const, detail: null, pointer: null };
          }
          entries().push(made(pileId, checked.data));
          return { id: entry.id, outcome: 'kept' as const, detail: null, pointer: null };
        });
        return ok(queuedAnswerSchema, { outcomes });
      },
    ],
    [
      'GET',
      /^\/api\/entries\/([^/]+)$/,
      ({ params }) => ok(entryDetailSchema, { entry: entryOf(params[0]), earlier: earlier.get(params[0] ?? '') ?? [] }),
    ],
    [
      'POST',
      /^\/api\/entries\/([^/]+)\/corrections$/,
      ({ params, body }) => {
        const { at, by, note, photoIds, what, reason } = taken(correctionSchema, body);
        const before = entryOf(params[0]);
        const change = { by: by ?? null, note: note ?? null, photoIds, what, reason: reason ?? null };
        return ok(entrySchema, replace(before, { ...change, at: toInstant(at ?? Date.parse(before.at)) }), 201);
      },
    ],
    [
      'POST',
      /^\/api\/entries\/([^/]+)\/withdrawal$/,
      ({ params, body }) => {
        const { reason } = taken(withdrawalSchema, body);
        return ok(entrySchema, replace(entryOf(params[0]), { withdrawn: true, reason: reason ?? null }));
      },
    ],
    [
      'PUT',
      /^\/api\/photos\/([^/]+)$/,
      ({ params: [id = ''] }) =>
        ok(photoSchema, { id, width: 8, height: 6, bytes: 99, url: `/api/photos/${id}`, smallUrl: '/' }, 201),
    ],
    ['GET', /^\/api\/batches$/, () => ok(batchesAnswerSchema, { batches: family.batches })],
    [
      'GET',
      /^\/api\/batches\/peaks$/,
      () => ok(batchPeaksAnswerSchema, { peaks: family.batches.map(({ id }, i) => ({ id, peakC: 40 + i / 2 })) }),
    ],
    ['GET', /^\/api\/batches\/([^/]+)$/, ({ params }) => ok(batchDetailSchema, batch(params[0]))],
    [
      'PATCH',
      /^\/api\/batches\/([^/]+)$/,
      ({ params, body }) => {
        taken(outcomeSchema, body);
        return ok(batchDetailSchema, batch(params[0]));
      },
    ],
    [
      'POST',
      /^\/api\/batches\/merge$/,
      ({ body }) => {
        const { from } = taken(mergeBatchesSchema, body);
        return ok(batchDetailSchema, batch(from[0]?.batchId), 201);
      },
    ],
    step('continue', continueBatchSchema, 201),
    step('split', splitBatchSchema),
    step('abandon', abandonSchema),
    step('uses', newUseSchema, 201),
    step('keep', keepLotSchema, 201),
    step('inputs', addInputSchema, 201),
    [
      'GET',
      /^\/api\/batches\/([^/]+)\/readiness$/,
      ({ params }) => ok(readinessSchema, readinessOf(batch(params[0]).id, nowMs())),
    ],
    [
      'GET',
      /^\/api\/batches\/([^/]+)\/record$/,
      ({ params }) => ok(batchRecordSchema, recordOf(family, batch(params[0]).id, nowMs())),
    ],
    ['GET', /^\/api\/lots$/, () => ok(lotsAnswerSchema, { lots: family.lots })],
    [
      'POST',
      /^\/api\/lots$/,
      ({ body }) => {
        const { from: _, ...lot } = taken(newLotSchema, body);
        const shown = {
          storage: null,
          massKg: null,
          volumeL: null,
          note: null,
          ...lot,
          id: `l${family.lots.length}`,
          createdAt: toInstant(nowMs()),
          usedUp: false,
          facts: JSON.parse(JSON.stringify((body as { facts: unknown }).facts)),
        };
        family.lots.push(lotSchema.parse(shown));
        return ok(lotSchema, shown, 201);
      },
    ],
    [
      'GET',
      /^\/api\/lots\/([^/]+)$/,
      ({ params }) => {
        const lot = family.lots.find((one) => one.id === params[0]);
        if (!lot) throw refuse(404, `No lot "${params[0]}"`);
        return ok(lotSchema, lot);
      },
    ],
    [
      'PATCH',
      /^\/api\/lots\/([^/]+)$/,
      ({ params, body }) => {
        taken(lotChangeSchema, body);
        return ok(
          lotSchema,
          family.lots.find((one) => one.id === params[0]),
        );
      },
    ],
    [
      'GET',
      /^\/api\/lineage$/,
      ({ query }) => {
        const [kind, id] = (query.get('start') ?? '').split(':');
        const start = kind && id ? { kind, id } : null;
        const nodes = nodesOf(family, start);
        const has = (end: { kind: string; id: string }) =>
          nodes.some((node) => node.kind === end.kind && node.id === end.id);
        const flows = family.flows.filter((flow) => has(flow.from) && has(flow.to));
        return ok(lineageAnswerSchema, { start, nodes, flows });
      },
    ],
    [
      'GET',
      /^\/api\/calendar$/,
      () =>
        ok(calendarSchema, {
          address: `http://127.0.0.1:4180/calendar/${calendarSecret}.ics`,
          ...inWords({ says: verbatim('Whoever has this address can read the dates.') }, 0),
        }),
    ],
    [
      'POST',
      /^\/api\/calendar\/renewal$/,
      () => {
        calendarSecret = 'second-secret';
        return ok(calendarSchema, {
          address: `http://127.0.0.1:4180/calendar/${calendarSecret}.ics`,
          ...inWords({ says: verbatim('Whoever has this address can read the dates.') }, 0),
        });
      },
    ],
    [
      'GET',
      /^\/api\/piles\/([^/]+)\/label$/,
      ({ params }) =>
        ok(labelSchema, {
          address: `http://127.0.0.1:4180/piles/${params[0]}/journal`,
          opensElsewhere: false,
          ...inWords({ says: message('label.opens-here') }, 0),
        }),
    ],
    [
      'POST',
      /^\/api\/import\/preview$/,
      ({ body }) => {
        const { csv, columns } = taken(importAskSchema, body);
        const [headings = '', ...rows] = csv.trim().split('\n');
        const guessed = columns.temp ?? ({ as: 'value', quantity: 'temperature', unit: '°C' } as const);
        return ok(importPreviewSchema, {
          digest: 'd'.repeat(64),
          delimiter: ',',
          decimalComma: false,
          columns: headings.split(',').map((heading, index) => ({
            heading,
            became: heading === 'temp' ? guessed : ({ as: 'field', field: heading } as const),
            ...inWords(
              {
                says: verbatim(
                  heading === 'temp' ? 'temperature of the probe core-1, in °C' : `the ${heading} of each row`,
                ),
              },
              0,
            ),
            examples: rows.slice(0, 3).map((row) => row.split(',')[index] ?? ''),
          })),
          ...inWords({ problem: null }, 0),
          rows: {
            total: rows.length,
            accepted: rows.length - 1,
            refused: 1,
            cellsRefused: 0,
            readings: rows.length - 1,
          },
          from: toInstant(nowMs() - 3_600_000),
          to: toInstant(nowMs()),
          refused: [
            {
              line: rows.length + 1,
              column: 'temp',
              ...inWords({ reason: verbatim('must be a number') }, 0),
              text: rows.at(-1) ?? '',
            },
          ],
          readings: [
            { site: 'saltmere-yard', probe: 'core-1', quantity: 'temperature', at: toInstant(nowMs()), value: 41.5 },
          ],
          entries: [],
        });
      },
    ],
    [
      'POST',
      /^\/api\/import\/commit$/,
      ({ body }) => {
        taken(importCommitSchema, body);
        return ok(importDoneSchema, { kept: 2, known: 1, conflicting: 0, downsampled: 0, refused: 1 });
      },
    ],
  ];
}
