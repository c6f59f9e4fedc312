/**
 * How many days of a pile pass in a second (5 layers, 5 minute steps, generated weather, one core), and how many readings of
 * 10,000 probes go out in one, physics included, at QoS 1, acknowledged by a Mosquitto. Seeds are fixed.
 */
import { farmOf } from '../../simulator/farm/farm.ts';
import { playFarm } from '../../simulator/farm/play-farm.ts';
import { climateWeather, mildClimate } from '../../simulator/model/climate.ts';
import { createPile } from '../../simulator/model/pile.ts';
import { stepPile } from '../../simulator/model/step-pile.ts';
import { mqttSink } from '../../simulator/publish/mqtt-sink.ts';
import { paceOut } from '../../simulator/publish/pace.ts';
import { manyPiles } from '../../simulator/scenario/many-piles.ts';
import { demoFarm } from '../../simulator/scenarios/demo/demo-farm.ts';
import { hasMosquitto, startMosquitto } from '../helpers/mosquitto.ts';
import { median, printTable } from './table.ts';

const stepS = 300;
const days = 14;
const rounds = 7;
const startMs = Date.UTC(2031, 4, 1);

export async function run(): Promise<Record<string, number>> {
  const pileDays = median(Array.from({ length: rounds }, (_, round) => pileDaysPerS(round)));
  const figures: Record<string, number> = { pile_days_per_s: pileDays };
  if (hasMosquitto) figures.probes_published_per_s = await publishedPerS();
  printTable([
    [
      'pile days',
      pileDays,
      `per second of one core, 5 layers, ${stepS} s steps, median of ${rounds} runs of 20 piles x ${days} days`,
    ],
    ['readings published', figures.probes_published_per_s ?? Number.NaN, 'per second, 10,000 probes, QoS 1, Mosquitto'],
  ]);
  return figures;
}

function pileDaysPerS(seed: number): number {
  const weather = climateWeather(mildClimate, seed);
  const piles = Array.from({ length: 20 }, (_, i) =>
    createPile({
      ingredients: [{ material: i % 2 === 0 ? 'wheat-bran' : 'rice-bran', massKg: 50 }],
      moistureFrac: 0.55 + 0.005 * i,
      doseFrac: 0.005,
      depthM: 0.2 + 0.01 * i,
      tempC: 18,
      startMs,
      cover: 'breathable',
    }),
  );
  // Time of the processor, not of the wall: what else the machine does is none of the model's business.
  const before = process.cpuUsage();
  for (const pile of piles)
    for (let step = 0; step < (days * 86_400) / stepS; step += 1) stepPile(pile, weather, stepS);
  const { user, system } = process.cpuUsage(before);
  return (piles.length * days) / ((user + system) / 1e6);
}

async function publishedPerS(): Promise<number> {
  const broker = await startMosquitto();
  try {
    const demo = demoFarm(1);
    const farm = farmOf(manyPiles(demo.scenario, 50, 2500), 1, startMs);
    const principals = farm.piles.flatMap(({ site, probes }) => probes.map(({ name }) => ({ site, probe: name })));
    const sink = await mqttSink({ url: broker.url, principals, inFlight: 200 });
    const startedMs = performance.now();
    const untilMs = startMs + 72 * 3_600_000;
    const clock = { nowMs: () => Number.POSITIVE_INFINITY, speed: 1 };
    // All piles are laid within 66 h; 15 s of the machine say enough about the rate.
    const stop = AbortSignal.timeout(15_000);
    const sent = await paceOut(playFarm(farm, { untilMs }), sink, { clock, signal: stop });
    await sink.close();
    return sent.readings / ((performance.now() - startedMs) / 1000);
  } finally {
    await broker.remove();
  }
}
