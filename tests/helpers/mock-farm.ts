/** An invented farm with piles in every condition, as the API would tell it. */
import type { z } from 'zod';
import { limitsView } from '../../core/session/limits-view.ts';
import { refusalMeanings } from '../../ingest/decode/refusal-meanings.ts';
import type { foreignMessageSchema, RefusalsAnswer } from '../../shared/contracts/ingest.ts';
import type { Entry } from '../../shared/contracts/journal.ts';
import type { refusedConnectionsAnswerSchema } from '../../shared/contracts/keys.ts';
import type { AlarmSummary, PileDetail } from '../../shared/contracts/piles.ts';
import type { Probe } from '../../shared/contracts/probes.ts';
import type { Bucket, SeriesAnswer } from '../../shared/contracts/series.ts';
import type { Site } from '../../shared/contracts/sites.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { inWords, worded } from '../../shared/messages/in-words.ts';
import { message } from '../../shared/messages/message.ts';
import type { Position, Stage } from '../../shared/names.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../shared/units.ts';
import { mockEvidence, mockHand, mockJudgement, mockReadyToSmell } from './mock-judgement.ts';

const powerOnAlone = message('refusal.power-on', {
  siteName: 'saltmere-yard',
  probeName: 'n-core',
  powerOnC: 85,
  withinK: 5,
  foundC: 85,
});

export interface MockFarm {
  sites: Site[];
  piles: PileDetail[];
  probes: Probe[];
  /** The journal's entries, oldest first; null where the server keeps none. */
  entries: Entry[] | null;
  refusals: RefusalsAnswer;
  turnedAway: z.infer<typeof refusedConnectionsAnswerSchema>;
  messages: z.input<typeof foreignMessageSchema>[];
}

const dust =
  'Turning throws up mould spores and steam, and so does mixing: stand upwind, wear gloves and a close-fitting dust mask ' +
  '(FFP3, or at least N95), and wash afterwards. People with asthma, lung trouble or a weak immune system should leave it ' +
  'to others.';

const limitsOf = (stage: Stage): PileDetail['limits'] => worded(limitsView(stage, {}));

export function mockFarm(nowMs: number): MockFarm {
  const ago = (lengthMs: number) => toInstant(nowMs - lengthMs);
  const alarm = (part: Partial<AlarmSummary> & Pick<AlarmSummary, 'id' | 'kind' | 'seen' | 'todo'>): AlarmSummary => ({
    severity: 'warning',
    state: 'unacknowledged',
    since: ago(25 * msPerMinute),
    position: 'core',
    by: null,
    caution: null,
    stands: true,
    suppressedBy: null,
    yieldsTo: null,
    shelvedUntil: null,
    ...part,
  });
  const at = (probe: string, temperatureC: number, humidityPct: number | undefined, ageMs = msPerMinute) => ({
    probe,
    temperatureC,
    ...(humidityPct === undefined ? {} : { humidityPct }),
    at: ago(ageMs),
    silent: false,
  });
  const pile = (
    part: Partial<PileDetail> & Pick<PileDetail, 'id' | 'name' | 'site' | 'condition' | 'next' | 'tone' | 'positions'>,
    days: number,
    phase: NonNullable<PileDetail['batch']>['phase'] = 'active',
    progress = 40,
  ): PileDetail => ({
    stage: 'bran',
    batch: {
      id: `${part.id}-1`,
      startedAt: ago(days * msPerDay),
      progress,
      phase,
      phaseReason: 'reached-working-heat',
      moisture: { frac: 0.57, sdFrac: 0.04 },
    },
    alarms: [],
    recipe: {
      material: 'wheat-bran',
      depthM: 0.3,
      massKg: 180,
      moistureFrac: 0.61,
      doseFrac: 0.02,
      cover: 'breathable',
    },
    assumed: [{ fact: 'shelter', value: 'open', origin: 'counted-as' }],
    limits: limitsOf(part.stage ?? 'bran'),
    acts: [],
    judgement: mockJudgement(),
    evidence: mockEvidence({}),
    ...part,
  });

  const piles: PileDetail[] = [
    pile(
      {
        id: 'north-bed',
        name: 'North bran bed',
        site: 'saltmere-yard',
        condition: 'It is too hot: the core is at 53.4 °C, and 50 °C is the limit.',
        next: 'Turn it or spread it thinner now, with gloves and a dust mask on.',
        tone: 'act',
        positions: {
          core: at('n-core', 53.4, 99),
          top: at('n-top', 44.1, 96),
          base: at('n-base', 39.7, 99),
          air: at('n-air', 17.2, 71),
        },
        alarms: [
          alarm({
            id: 'a1',
            kind: 'overheating',
            severity: 'warning',
            seen: 'The core is at 53.4 °C, above the 50 °C at which to act.',
            todo: 'Turn it or spread it thinner.',
            by: toInstant(nowMs + 95 * msPerMinute),
            caution: dust,
          }),
          alarm({
            id: 'a2',
            kind: 'overheating-soon',
            seen: 'The core rises by 1.2 °C an hour.',
            todo: 'Be ready to turn it.',
            suppressedBy: 'a1',
          }),
          alarm({
            id: 'a3',
            kind: 'uneven',
            position: null,
            state: 'shelved',
            severity: 'notice',
            seen: 'The top is 4 °C warmer than the base.',
            todo: 'Turn it so that the cool part comes to the middle.',
            shelvedUntil: toInstant(nowMs + 5 * msPerHour),
          }),
        ],
        acts: [
          { id: 'x1', kind: 'turned', at: ago(40 * msPerHour), note: 'Sweet smell, white threads all through.' },
          { id: 'x2', kind: 'watered', at: ago(39 * msPerHour), amountL: 12 },
          { id: 'x3', kind: 'covered', at: ago(38 * msPerHour) },
        ],
        judgement: mockJudgement({ overLimit: { likelihood: 1, at: ago(2 * msPerHour) } }),
        evidence: mockEvidence({
          overheating: { seen: 'The core is at 53.4 °C, above the 50 °C at which to act.' },
          'overheating-soon': { seen: 'The core rises by 1.2 °C an hour.' },
        }),
      },
      3.4,
      'active',
      46,
    ),
    pile(
      {
        id: 'barn-bed',
        name: 'Barn bran bed',
        site: 'saltmere-yard',
        condition: 'It is working well: the core is at 41 °C, 24 °C above the air.',
        next: 'Leave it working.',
        tone: 'calm',
        positions: {
          core: { ...at('b-core', 41.3, 99), moisturePct: 58 },
          top: at('b-top', 36.2, 97),
          base: at('b-base', 33.8, 99),
          edge: at('b-edge', 29.5, 93),
          air: at('b-air', 17.4, 70),
        },
        judgement: mockJudgement({
          overLimit: { likelihood: 0.78, at: toInstant(nowMs + 3 * msPerHour) },
          detectedInterventions: [mockHand(nowMs, 'turned', 20 * msPerHour)],
        }),
      },
      2.2,
      'active',
      31,
    ),
    pile(
      {
        id: 'old-stack',
        name: 'Old stack behind the shed',
        site: 'saltmere-yard',
        stage: 'soil',
        condition: 'It is heating dangerously: the core is at 72 °C.',
        next: 'Measure every two hours and open the heap only with water and a helper at hand.',
        tone: 'danger',
        positions: { core: at('o-core', 72.3, undefined), top: at('o-top', 58.9, undefined) },
        alarms: [
          alarm({
            id: 'a4',
            kind: 'self-heating',
            severity: 'danger',
            seen: 'The core is at 72.3 °C: self-heating is serious.',
            todo: 'Measure every two hours and open the heap only with water and a helper at hand.',
            caution:
              'Hot, dry material can catch fire when it is opened to the air. Keep people back, have water at hand, and follow your fire service.',
          }),
        ],
        recipe: { material: 'compost-mix', depthM: 0.6, cover: 'open' },
        evidence: mockEvidence({ 'self-heating': { seen: 'The core is at 72.3 °C: self-heating is serious.' } }),
      },
      6.1,
      'active',
      70,
    ),
    pile(
      {
        id: 'wall-heap',
        name: 'Soil heap by the wall',
        site: 'saltmere-terrace',
        stage: 'soil',
        condition: 'It is drying out: the core is at 31 °C.',
        next: 'Squeeze a handful from the core; if it crumbles, sprinkle some water, mix it in and cover it.',
        tone: 'act',
        positions: {
          core: { ...at('w-core', 31.1, 88), moisturePct: 29 },
          top: { ...at('w-top', 27.4, 61), moisturePct: 18 },
          base: { ...at('w-base', 26.9, 95), moisturePct: 37 },
          air: at('w-air', 19.0, 44),
        },
        alarms: [
          alarm({
            id: 'a5',
            kind: 'drying',
            position: null,
            state: 'acknowledged',
            seen: 'Moisture at the core fell from 41 % to 29 % in two days.',
            todo: 'Squeeze a handful; if it crumbles, sprinkle some water and mix it in.',
            caution:
              'Water cannot be taken out again: give a little at a time, mix it in, and squeeze a handful before giving more.',
          }),
        ],
        recipe: { material: 'soil-mix', depthM: 0.2, massKg: 240, moistureFrac: 0.45, cover: 'breathable' },
        judgement: mockJudgement({
          waterToAdd: { litres: 28.4, litresPer10Kg: 1.6, fromFrac: 0.33, toFrac: 0.45 },
          readiness: mockReadyToSmell(),
        }),
        evidence: mockEvidence({
          drying: { seen: 'The bed is at about 33 % moisture by the water balance, below the 40 % it needs.' },
        }),
      },
      4.8,
      'cooling',
      81,
    ),
    pile(
      {
        id: 'rice-bed',
        name: 'Rice bran bed',
        site: 'saltmere-terrace',
        condition:
          'The core probe has been silent for 3 hours, so nobody can say how the pile is; it was at 44 °C then.',
        next: 'Measure the core with a long-stem thermometer, then look at the probe: battery, cable, radio.',
        tone: 'act',
        positions: {
          core: { ...at('r-core', 43.9, 99, 3 * msPerHour), silent: true },
          top: at('r-top', 35.0, 95),
          base: { ...at('r-base', 33.2, 99, 5 * msPerHour), silent: true },
          air: at('r-air', 18.8, 46),
        },
        alarms: [
          alarm({
            id: 'a6',
            kind: 'probe-silent',
            seen: 'The core probe has said nothing for 3 hours. Its last reading was 43.9 °C.',
            todo: 'Look at the probe: battery, cable, radio; measure with a long-stem thermometer until it talks again.',
          }),
        ],
        recipe: { material: 'rice-bran', depthM: 0.25, cover: 'closed' },
        judgement: mockJudgement({ overLimit: null }),
        evidence: mockEvidence({
          'probe-silent': {
            seen: 'The core probe has said nothing for 3 hours. Its last reading was 43.9 °C.',
            position: 'core',
          },
        }),
      },
      2.9,
      'active',
      38,
    ),
    {
      ...pile(
        {
          id: 'lower-bed',
          name: 'Lower bed',
          site: 'saltmere-terrace',
          condition: 'Nothing lies here now.',
          next: 'Lay the next batch when you are ready.',
          tone: 'calm',
          positions: {},
        },
        0,
      ),
      batch: null,
      recipe: null,
      judgement: null,
      evidence: [],
    },
  ];

  const wallHeap = piles.find((one) => one.id === 'wall-heap');
  if (wallHeap?.batch) wallHeap.batch.moisture = { frac: 0.33, sdFrac: 0.05 };

  const probes: Probe[] = piles.flatMap((one) =>
    (Object.entries(one.positions) as [Position, NonNullable<PileDetail['positions'][Position]>][]).map(
      ([position, now]) => ({
        site: one.site,
        probe: now.probe ?? position,
        claim: { pileId: one.id, position, since: one.batch?.startedAt ?? ago(0) },
        last: {
          ...(now.temperatureC === undefined ? {} : { temperatureC: now.temperatureC }),
          ...(now.humidityPct === undefined ? {} : { humidityPct: now.humidityPct }),
          ...(now.moisturePct === undefined ? {} : { moisturePct: now.moisturePct }),
          rssiDbm: -71,
        },
        lastAt: now.at ?? null,
        batteryV: now.silent ? 2.61 : 3.02,
        online: !now.silent,
        temperatureOffsetC: now.probe === 'b-core' ? -0.4 : 0,
      }),
    ),
  );
  probes.push({
    site: 'saltmere-yard',
    probe: 'spare-7',
    claim: null,
    last: { temperatureC: 16.9, humidityPct: 74 },
    lastAt: ago(20_000),
    batteryV: null,
    online: null,
    temperatureOffsetC: 0,
  });

  return {
    sites: [
      { id: 'saltmere-yard', name: 'Saltmere Yard', timeZone: 'Europe/Lisbon', latitude: null, longitude: null },
      { id: 'saltmere-terrace', name: 'Saltmere Terrace', timeZone: 'Europe/Lisbon', latitude: null, longitude: null },
    ],
    piles,
    probes,
    entries: [],
    turnedAway: {
      total: 12,
      turnedAway: [
        {
          reason: 'wrong-secret',
          address: '192.0.2.17',
          clientId: 'esp32-shed',
          key: 'Core of bay one',
          count: 12,
          lastAt: toInstant(nowMs - 40_000),
        },
      ],
    },
    refusals: {
      since: ago(3 * msPerDay),
      total: 131,
      refusals: [
        {
          reason: 'power-on-value',
          ...inWords({ meaning: refusalMeanings['power-on-value'] }, nowMs),
          count: 128,
          last: {
            at: ago(11 * msPerMinute),
            topic: 'piles/saltmere-yard/n-core/reading',
            payload: '{"temperature":85}',
            ...inWords({ message: powerOnAlone }, nowMs),
          },
        },
        {
          reason: 'not-json',
          ...inWords({ meaning: refusalMeanings['not-json'] }, nowMs),
          count: 3,
          last: {
            at: ago(26 * msPerHour),
            topic: 'piles/saltmere-terrace/w-top/reading',
            payload: '{"temperature":27.',
            ...inWords({ message: message('refusal.json', { problemText: 'it ends too early' }) }, nowMs),
          },
        },
      ],
    },
    messages: [
      { at: ago(4_000), topic: 'shed/3/sensors', payload: '{"ts":1764000000,"air":{"t":186,"rh":71.2},"name":"door"}' },
      { at: ago(90_000), topic: 'shed/4/sensors', payload: 'restarting' },
    ],
  };
}

/** A core that warms, is turned and warms again, seen by each claimed position. */
export function mockSeries(pile: PileDetail, fromMs: number, toMs: number, points: number, nowMs = toMs): SeriesAnswer {
  const startMs = pile.batch ? Date.parse(pile.batch.startedAt) : fromMs;
  const bucketMs = Math.max(msPerMinute, Math.ceil((toMs - fromMs) / points / msPerMinute) * msPerMinute);
  const airC = (atMs: number) => 17 + 4 * Math.sin((2 * Math.PI * (atMs - 9 * msPerHour)) / msPerDay);
  const warmth = (atMs: number) => {
    const hours = (atMs - startMs) / msPerHour;
    if (hours < 0) return 0;
    const hump = (centreH: number, widthH: number) => Math.exp(-(((hours - centreH) / widthH) ** 2));
    return 27 * hump(34, 17) + 33 * hump(84, 26) + 8 * hump(60, 20);
  };
  const share: Record<Position, number> = { core: 1, top: 0.68, base: 0.6, edge: 0.42, air: 0 };
  const positions: SeriesAnswer['positions'] = {};
  for (const [position, now] of Object.entries(pile.positions) as [Position, PileDetail['positions'][Position]][]) {
    if (!now) continue;
    const temperatureC: Bucket[] = [];
    const humidityPct: Bucket[] = [];
    for (let atMs = Math.max(fromMs, startMs); atMs < toMs; atMs += bucketMs) {
      const silentFromMs = now.silent && now.at ? Date.parse(now.at) : Number.POSITIVE_INFINITY;
      const hours = (atMs - startMs) / msPerHour;
      if (atMs > silentFromMs || (position === 'top' && hours > 20 && hours < 24)) continue;
      const mean = airC(atMs) + share[position] * warmth(atMs);
      const bucket = (value: number, spread: number) => ({
        at: toInstant(atMs),
        min: value - spread,
        mean: value,
        max: value + spread,
        count: Math.max(1, Math.round(bucketMs / msPerMinute)),
      });
      temperatureC.push(bucket(mean, 0.2));
      humidityPct.push(
        bucket(
          position === 'air' ? 70 - 12 * Math.sin(hours / 4) : 99 - 3 * share[position] * Math.sin(hours / 9) ** 2,
          0.5,
        ),
      );
    }
    positions[position] = now.humidityPct === undefined ? { temperatureC } : { temperatureC, humidityPct };
  }
  const band = [];
  for (let atMs = startMs; pile.batch && atMs <= toMs; atMs += msPerHour) {
    const p50 = airC(atMs) + 0.82 * warmth(atMs);
    const spread = 1.5 + 0.16 * (p50 - airC(atMs));
    band.push({ at: toInstant(atMs), p10: p50 - spread, p50, p90: p50 + spread });
  }
  return {
    from: toInstant(fromMs),
    to: toInstant(toMs),
    bucketMs,
    positions,
    expected: worded({
      messages: { origin: message('band.model', { isAirMeasured: true, actCount: 0 }) },
      points: band,
    }),
    forecast: pile.judgement?.overLimit ? { points: mockFan(pile, nowMs) } : null,
  };
}

/** From the core as it is on with the day's air, widening by the root of the hours. */
function mockFan(pile: PileDetail, nowMs: number): NonNullable<SeriesAnswer['forecast']>['points'] {
  const coreC = pile.positions.core?.temperatureC ?? 20;
  const rises = (pile.judgement?.overLimit?.likelihood ?? 0) > 0.5;
  return Array.from({ length: 24 }, (_, i) => {
    const hours = i + 1;
    const p50 = coreC + (rises ? 11 : 3) * (1 - Math.exp(-hours / 4)) - 0.2 * hours;
    const spread = 1.1 * Math.sqrt(hours);
    return { at: toInstant(nowMs + hours * msPerHour), p10: p50 - spread, p50, p90: p50 + spread };
  });
}
