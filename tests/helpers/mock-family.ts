/** The family of the invented farm's batches, from a wood to its beds, as the API would tell it. */
import type { BatchDetail, BatchView, FlowView, LineageNode, Use } from '../../shared/contracts/lineage.ts';
import type { Lot } from '../../shared/contracts/lots.ts';
import type { Readiness } from '../../shared/contracts/readiness.ts';
import type { BatchRecordSheet } from '../../shared/contracts/records.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { worded } from '../../shared/messages/in-words.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';

export interface MockFamily {
  readonly lots: Lot[];
  readonly batches: BatchView[];
  readonly flows: FlowView[];
  readonly uses: Use[];
}

export function mockFamily(nowMs: number): MockFamily {
  const ago = (days: number) => toInstant(nowMs - days * msPerDay);
  const batch = (part: Partial<BatchView> & Pick<BatchView, 'id' | 'name' | 'pileId' | 'pileName' | 'startedAt'>) => ({
    site: 'saltmere-yard',
    stage: 'bran' as const,
    endedAt: null,
    ending: null,
    reason: null,
    outcome: null,
    verdict: null,
    ...part,
  });
  const flow = (
    id: string,
    from: FlowView['from'],
    to: FlowView['to'],
    way: FlowView['way'],
    days: number,
    massKg: number | null,
  ): FlowView => ({ id, from, to, way, at: ago(days), massKg, volumeL: null });
  const lot = (id: string) => ({ kind: 'lot' as const, id });
  const of = (id: string) => ({ kind: 'batch' as const, id });
  const use = (id: string) => ({ kind: 'use' as const, id });
  return {
    lots: [
      {
        id: 'oak',
        name: 'Oak wood, autumn',
        createdAt: ago(40),
        storage: 'in a jar in the cellar',
        massKg: 1.2,
        volumeL: null,
        note: null,
        usedUp: false,
        facts: {
          kind: 'starter',
          collectedPlace: 'the oak wood behind the upper terrace',
          collectedAt: ago(44),
          medium: 'cooked rice',
          sugar: 'brown sugar',
          sugarRatio: 1,
        },
      },
      {
        id: 'mill',
        name: 'Mill bran, spring',
        createdAt: ago(30),
        storage: null,
        massKg: 400,
        volumeL: null,
        note: null,
        usedUp: false,
        facts: {
          kind: 'material',
          material: 'wheat-bran',
          supplier: 'Tidewell Mill',
          lotNumber: '44',
          organic: 'certified',
        },
      },
    ],
    batches: [
      batch({
        id: 'may-bran',
        name: 'May bran',
        pileId: 'barn-bed',
        pileName: 'Barn bran bed',
        startedAt: ago(14),
        endedAt: ago(5),
        ending: 'continued',
        outcome: 'Sweet and earthy, white all through.',
      }),
      batch({
        id: 'sour-bran',
        name: 'Sour bran',
        pileId: 'rice-bed',
        pileName: 'Rice bran bed',
        startedAt: ago(24),
        endedAt: ago(20),
        ending: 'abandoned',
        reason: 'Smelt of ammonia from the third day on.',
      }),
      batch({
        id: 'north-bed-1',
        name: 'North bran bed, June',
        pileId: 'north-bed',
        pileName: 'North bran bed',
        startedAt: ago(3),
      }),
      batch({
        id: 'wall-heap-1',
        name: 'Wall heap, June',
        pileId: 'wall-heap',
        pileName: 'Soil heap by the wall',
        site: 'saltmere-terrace',
        stage: 'soil',
        startedAt: ago(5),
      }),
    ],
    flows: [
      flow('f1', lot('oak'), of('may-bran'), 'input', 14, 0.1),
      flow('f2', lot('mill'), of('may-bran'), 'input', 14, 80),
      flow('f3', lot('mill'), of('sour-bran'), 'input', 24, 60),
      flow('f4', lot('oak'), of('north-bed-1'), 'input', 3, 0.1),
      flow('f5', lot('mill'), of('north-bed-1'), 'input', 3, 90),
      flow('f6', of('may-bran'), of('wall-heap-1'), 'continued', 5, 150),
      flow('f7', of('wall-heap-1'), use('u1'), 'used', 1, 60),
      flow('f8', of('wall-heap-1'), use('u2'), 'used', 1, null),
    ],
    uses: [
      {
        id: 'u1',
        batchId: 'wall-heap-1',
        target: 'bed',
        place: 'Bed 3, upper terrace',
        at: ago(1),
        massKg: 60,
        volumeL: null,
        areaM2: 30,
        rateKgPerM2: 2,
        by: 'M.',
        note: null,
      },
      {
        id: 'u2',
        batchId: 'wall-heap-1',
        target: 'compost',
        place: 'Long heap',
        at: ago(1),
        massKg: null,
        volumeL: null,
        areaM2: null,
        rateKgPerM2: null,
        by: null,
        note: 'A few forkfuls as a start.',
      },
    ],
  };
}

function nameOf({ lots, batches, uses }: MockFamily, { kind, id }: FlowView['from']): string {
  if (kind === 'lot') return lots.find((one) => one.id === id)?.name ?? id;
  if (kind === 'batch') return batches.find((one) => one.id === id)?.name ?? id;
  return uses.find((one) => one.id === id)?.place ?? id;
}

export function detailOf(family: MockFamily, id: string): BatchDetail | undefined {
  const batch = family.batches.find((one) => one.id === id);
  if (!batch) return undefined;
  const here = (end: FlowView['from']) => end.kind === 'batch' && end.id === id;
  return {
    ...batch,
    amounts: {
      laidKg: 180,
      inKg: 90.1,
      outKg: 60,
      restKg: 120,
      restAtMostKg: null,
      remark: null,
      messages: { remark: null },
    },
    inputs: family.flows.filter((flow) => here(flow.to)).map((flow) => ({ ...flow, name: nameOf(family, flow.from) })),
    outputs: family.flows.filter((flow) => here(flow.from)).map((flow) => ({ ...flow, name: nameOf(family, flow.to) })),
    uses: family.uses.filter((one) => one.batchId === id),
  };
}

/** Everything as nodes; `step` is counted from the start along the flows, the nearest way. */
export function nodesOf(family: MockFamily, start: { kind: string; id: string } | null): LineageNode[] {
  const key = ({ kind, id }: { kind: string; id: string }) => `${kind}:${id}`;
  const steps = new Map<string, number>(start ? [[key(start), 0]] : []);
  for (const _ of family.flows) {
    for (const { from, to } of family.flows) {
      const [up, down] = [steps.get(key(from)), steps.get(key(to))];
      if (up !== undefined && up >= 0 && down === undefined) steps.set(key(to), up + 1);
      if (down !== undefined && down <= 0 && up === undefined) steps.set(key(from), down - 1);
    }
  }
  const node = (kind: LineageNode['kind'], id: string, name: string, says: string, at: string): LineageNode => {
    const step = steps.get(`${kind}:${id}`) ?? 0;
    const batch = kind === 'batch' ? family.batches.find((one) => one.id === id) : undefined;
    return {
      kind,
      id,
      name,
      says,
      at,
      step,
      share: start && step > 0 ? 0.25 : null,
      stage: batch?.stage ?? null,
      ending: batch?.ending ?? null,
      messages: { says: verbatim(says) },
    };
  };
  return [
    ...family.lots.map((one) => node('lot', one.id, one.name, 'a lot', one.createdAt)),
    ...family.batches.map((one) => node('batch', one.id, one.name, `laid on ${one.pileName}`, one.startedAt)),
    ...family.uses.map((one) => node('use', one.id, one.place, 'a bed', one.at)),
  ].filter((one) => start === null || steps.has(`${one.kind}:${one.id}`));
}

/** A sentence as the API gives it: as text, and as what a page renders. */
const inWords = (says: string) => ({ says, messages: { says: verbatim(says) } });

export function readinessOf(batchId: string, nowMs: number): Readiness {
  const says = 'Not ready yet, says M.: the smell is good, the look doubtful.';
  const good = ['It smells sweet, of bread or of forest floor.', 'White threads all through, like frost on straw.'];
  const bad = ['It smells of ammonia, of vinegar or of rot.', 'Black or slimy places, green fur that dusts.'];
  const cautions = [
    'Do not breathe over mouldy material: wear a close-fitting mask and gloves, and open the doors of a shed first.',
  ];
  return {
    batchId,
    signs: [
      { sign: 'heat-came', evidence: 'present', ...inWords('Heat came: the core passed 35 °C on the second day.') },
      { sign: 'heat-fell', evidence: 'absent', ...inWords('It is 14 °C above the air still.') },
      { sign: 'no-reheat', evidence: 'missing', ...inWords('It was not turned since, so this cannot be told.') },
    ],
    person: {
      entryId: 'e-ready',
      at: toInstant(nowMs - 5 * msPerHour),
      by: 'M.',
      smell: 'good',
      look: 'doubtful',
      ready: false,
      note: 'Some dry lumps at the edge.',
    },
    ready: false,
    says,
    good,
    bad,
    cautions,
    messages: {
      says: verbatim(says),
      good: good.map(verbatim),
      bad: bad.map(verbatim),
      cautions: cautions.map(verbatim),
    },
  };
}

const handling = 'Handle with gloves, keep the dust down, wash hands before eating.';

export function recordOf(family: MockFamily, id: string, nowMs: number): BatchRecordSheet | undefined {
  const batch = detailOf(family, id);
  if (!batch) return undefined;
  const startMs = Date.parse(batch.startedAt);
  const points = Array.from({ length: 60 }, (_, index) => {
    const mean = 18 + 28 * Math.sin((index / 60) * Math.PI);
    return { at: toInstant(startMs + index * 2 * msPerHour), min: mean - 1, mean, max: mean + 1 };
  });
  return {
    drawnUpAt: toInstant(nowMs),
    version: '0.1.0',
    timeZone: null,
    siteName: 'Saltmere Yard',
    batch,
    recipe: { material: 'wheat-bran', depthM: 0.3, massKg: 180, moistureFrac: 0.61, cover: 'breathable' },
    assumed: [],
    limits: {},
    pastHeat: {
      actC: 50,
      lossC: 60,
      places: [
        {
          position: 'core',
          peakC: 46,
          peakAt: toInstant(startMs + 60 * msPerHour),
          actH: 0,
          lossH: 0,
          mayBeLost: false,
        },
      ],
      says: null,
      messages: { says: null },
    },
    lots: family.lots.map((lot) => ({ ...lot, massKgIn: 80, volumeLIn: null })),
    ancestry: nodesOf(family, { kind: 'batch', id }).filter((node) => node.step < 0),
    curves: {
      bucketMs: 2 * msPerHour,
      temperatureC: [
        { position: 'core', points },
        {
          position: 'air',
          points: points.map(({ at }) => ({ at, min: 14, mean: 16, max: 18 })),
        },
      ],
      byHand: [],
    },
    entries: [],
    alarms: [],
    timeTemperature: worded({
      position: 'core',
      hoursAtLeast: [
        { tempC: 40, totalH: 51.5, longestRunH: 51.5 },
        { tempC: 55, totalH: 0, longestRunH: 0 },
      ],
      measuredH: 118,
      unmeasuredH: 2,
      highestC: 47,
      highestAt: toInstant(startMs + 60 * msPerHour),
      turns: 3,
      rules: [
        {
          standing: 'from memory' as const,
          messages: {
            rule: verbatim('Windrow rule'),
            source: verbatim('a public rule'),
            asks: verbatim('15 days at or above 55 °C, turned five times.'),
            measured: verbatim('0.0 h at or above 55 °C, turned 3 times.'),
          },
        },
      ],
      messages: {
        says: [verbatim('This is not a certification.'), verbatim('Not sanitised: 0.0 hours at or above 55 °C.')],
      },
    }),
    readiness: readinessOf(id, nowMs),
    cautions: [handling],
    messages: { cautions: [verbatim(handling)] },
  };
}
