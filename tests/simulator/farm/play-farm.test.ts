import { describe, expect, test } from 'vitest';
import { namePattern } from '../../../shared/names.ts';
import { farmOf } from '../../../simulator/farm/farm.ts';
import { type FarmMessage, type FarmReading, playFarm } from '../../../simulator/farm/play-farm.ts';
import { moistureFrac } from '../../../simulator/model/layer.ts';
import { type ScenarioText, scenarioSchema } from '../../../simulator/scenario/scenario-schema.ts';
import { demoFarm } from '../../../simulator/scenarios/demo/demo-farm.ts';

const startMs = Date.UTC(2031, 5, 1);
const hourMs = 3_600_000;
type FaultText = NonNullable<ScenarioText['sites'][number]['piles'][number]['probes'][number]['faults']>;

function messagesWith(faults: FaultText, hours: number): FarmMessage[] {
  const scenario = scenarioSchema.parse({
    name: 'one probe',
    sites: [
      {
        name: 'saltmere-yard',
        piles: [
          {
            name: 'one',
            recipe: { ingredients: [{ material: 'wheat-bran', massKg: 40 }] },
            probes: [{ name: 'core', position: 'core', faults }],
          },
        ],
      },
    ],
  } satisfies ScenarioText);
  return [...playFarm(farmOf(scenario, 1, startMs), { untilMs: startMs + hours * hourMs })];
}

const readings = (messages: FarmMessage[]) => messages.filter((m): m is FarmReading => m.kind === 'reading');

describe('playFarm()', () => {
  test('playFarm() gives a reading every five minutes, stamped when it is sent', () => {
    const sent = readings(messagesWith([], 10));
    expect(sent).toHaveLength(120);
    sent.forEach((reading, i) => {
      expect(reading.atMs).toBe(reading.sendAtMs);
      if (i > 0) expect(reading.atMs - (sent[i - 1]?.atMs ?? 0)).toBe(300_000);
    });
  });
  test('playFarm() of the same farm and seed says the same, of another seed not', () => {
    const demo = demoFarm(1);
    const play = (seed: number) => [
      ...playFarm(farmOf(demo.scenario, seed, startMs), { untilMs: startMs + 48 * hourMs }),
    ];
    expect(play(1)).toEqual(play(1));
    expect(play(2)).not.toEqual(play(1));
  });
  test('playFarm() is always in the order in which messages are sent', () => {
    const sent = messagesWith(
      [
        { kind: 'late', fromH: 2, toH: 5 },
        { kind: 'duplicated', share: 0.3 },
      ],
      10,
    );
    sent.forEach((message, i) => {
      if (i > 0) expect(message.sendAtMs).toBeGreaterThanOrEqual(sent[i - 1]?.sendAtMs ?? 0);
    });
  });
  test('late: nothing for three hours, then all of it at once with its own times', () => {
    const sent = readings(messagesWith([{ kind: 'late', fromH: 2, toH: 5 }], 6));
    expect(sent.filter(({ sendAtMs }) => sendAtMs > startMs + 2 * hourMs && sendAtMs < startMs + 5 * hourMs)).toEqual(
      [],
    );
    const burst = sent.filter(({ sendAtMs }) => sendAtMs === startMs + 5 * hourMs);
    expect(burst).toHaveLength(36);
    expect(new Set(burst.map(({ atMs }) => atMs)).size).toBe(36);
    expect(sent).toHaveLength(72);
  });
  test('dropped and duplicated: fewer and more readings, by about their share', () => {
    expect(readings(messagesWith([{ kind: 'dropped', share: 0.25 }], 100)).length / 1200).toBeCloseTo(0.75, 1);
    expect(readings(messagesWith([{ kind: 'duplicated', share: 0.25 }], 100)).length / 1200).toBeCloseTo(1.25, 1);
  });
  test('dropped in a row: the same share is lost, five together on the mean', () => {
    const sent = readings(messagesWith([{ kind: 'dropped', share: 0.3, inARow: 5 }], 400)).map(({ atMs }) => atMs);
    const lost = sent.flatMap((atMs, i) => (i === 0 ? [] : [(atMs - (sent[i - 1] ?? 0)) / 300_000 - 1]));
    const runs = lost.filter((count) => count > 0);
    expect(runs.reduce((sum, count) => sum + count, 0) / runs.length).toBeCloseTo(5, 0);
    expect(sent.length / 4800).toBeCloseTo(0.7, 1);
  });
  test('wrong-clock: sent in time, stamped ahead', () => {
    const [first] = readings(messagesWith([{ kind: 'wrong-clock', byS: 1800 }], 1));
    expect((first?.atMs ?? 0) - (first?.sendAtMs ?? 0)).toBe(1_800_000);
  });
  test('flat-battery: a status of offline, and online again when the cells are changed', () => {
    const sent = messagesWith([{ kind: 'flat-battery', fromH: 1, toH: 30 }], 40);
    expect(sent.flatMap((m) => (m.kind === 'status' ? [m.online] : []))).toEqual([false, true]);
  });
});

describe('the farm Saltmere', () => {
  for (const seed of [1, 2, 7]) {
    test(`demoFarm(${seed}): each of the four piles fares as it was laid, by its physics alone`, () => {
      const demo = demoFarm(seed);
      const clockStartMs = startMs + demo.historyH * hourMs;
      const peakLiveC = new Map<string, number>();
      const peakC = new Map<string, number>();
      const leastMoisture = new Map<string, number>();
      const untilMs = clockStartMs + 48 * hourMs;
      const run = playFarm(farmOf(demo.scenario, seed, startMs), {
        untilMs,
        onStep: ({ setup, pile }) => {
          const coreC = pile.layers[2]?.tempC ?? Number.NaN;
          const wet = pile.layers.reduce((sum, layer) => sum + moistureFrac(layer), 0) / pile.layers.length;
          peakC.set(setup.name, Math.max(peakC.get(setup.name) ?? -99, coreC));
          leastMoisture.set(setup.name, Math.min(leastMoisture.get(setup.name) ?? 1, wet));
          if (pile.atMs > clockStartMs) peakLiveC.set(setup.name, Math.max(peakLiveC.get(setup.name) ?? -99, coreC));
        },
      });
      for (const _ of run);
      const nameOf = (fate: string) => demo.piles.find((pile) => pile.fate === fate)?.name ?? '';
      expect(peakLiveC.get(nameOf('overheating'))).toBeGreaterThan(52);
      expect(peakC.get(nameOf('fine'))).toBeGreaterThan(40);
      expect(peakC.get(nameOf('fine'))).toBeLessThan(48);
      expect(leastMoisture.get(nameOf('drying'))).toBeLessThan(0.4);
      expect(leastMoisture.get(nameOf('fine'))).toBeGreaterThan(0.55);
      expect(peakC.get(nameOf('stalling'))).toBeLessThan(32);
    });
  }
  test('demoFarm() names sites and probes as topics allow, every probe once per site', () => {
    const demo = demoFarm(1);
    expect(demo.sites.map(({ id }) => id)).toEqual(['saltmere-yard', 'saltmere-terrace']);
    const names = demo.piles.flatMap(({ site, probes }) => probes.map(({ name }) => `${site}/${name}`));
    expect(new Set(names).size).toBe(16);
    for (const name of names) for (const part of name.split('/')) expect(part).toMatch(namePattern);
  });
});
