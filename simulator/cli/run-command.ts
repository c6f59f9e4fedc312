/** Plays what the command line asks for, with a progress bar on standard error and one line about the run at its end. */
import { createWriteStream } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Clock } from '../../shared/clock.ts';
import { ConfigError } from '../../shared/errors.ts';
import { farmOf } from '../farm/farm.ts';
import { type FarmMessage, playFarm } from '../farm/play-farm.ts';
import { pilesByCondition } from '../generate/by-condition.ts';
import { pilesByKeeper } from '../generate/by-keeper.ts';
import { pilesByMishap } from '../generate/by-mishap.ts';
import { pilesByReading } from '../generate/by-reading.ts';
import { csvSink } from '../publish/csv-sink.ts';
import { mqttSink, type Principal } from '../publish/mqtt-sink.ts';
import { paceOut } from '../publish/pace.ts';
import type { Sink } from '../publish/sink.ts';
import { readAir } from '../replay/read-air.ts';
import { readReplay } from '../replay/replay-csv.ts';
import { manyPiles } from '../scenario/many-piles.ts';
import { readScenario } from '../scenario/read-scenario.ts';
import type { Scenario } from '../scenario/scenario-schema.ts';
import { demoFarm } from '../scenarios/demo/demo-farm.ts';
import { chooseClock } from './clock-option.ts';
import type { ReplayCommandOptions, RunOptions } from './options.ts';
import { progressBar } from './progress-bar.ts';
import { truthLog } from './truth-log.ts';

interface Play {
  readonly clock: Clock;
  readonly startMs: number;
  readonly messages: Iterable<FarmMessage>;
  readonly principals: readonly Principal[];
  readonly untilMs: number;
  readonly close: () => Promise<void>;
}

export async function runCommand(options: RunOptions | ReplayCommandOptions, signal: AbortSignal): Promise<void> {
  const play = options.command === 'run' ? prepareRun(options) : prepareReplay(options);
  const { clock, startMs, untilMs, messages, principals } = play;
  const sink = await sinkOf(options, principals);
  const bar = progressBar(process.stderr, startMs, untilMs);
  let count = 0;
  // A file waits for no clock.
  const pace = options.csvPath === undefined ? clock : { nowMs: () => Number.POSITIVE_INFINITY, speed: 1 };
  const sent = await paceOut(messages, sink, {
    clock: pace,
    signal,
    onSent: (atMs) => {
      count += 1;
      bar.reached(atMs, count);
    },
  });
  await sink.close();
  await play.close();
  bar.done();
  const hours = Math.max(0, (sent.lastAtMs - startMs) / 3_600_000);
  process.stderr.write(`${sent.readings} readings of ${principals.length} probes over ${hours.toFixed(1)} h\n`);
}

function prepareRun(options: RunOptions): Play {
  const demo = options.scenario === 'demo' ? demoFarm(options.seed) : undefined;
  const scenario =
    demo === undefined ? scenarioOf(options) : manyPiles(demo.scenario, options.siteCount, options.pileCount);
  const durationH = options.durationH ?? scenario.days * 24;
  // A file can start on any date; what goes to a broker has to fit a clock.
  const start = options.start ?? (options.csvPath === undefined ? undefined : scenario.startAt);
  const { clock, hourZeroMs } = chooseClock({ ...options, start, durationH });
  const startMs = hourZeroMs - (options.historyH ?? demo?.historyH ?? 0) * 3_600_000;
  const untilMs = hourZeroMs + durationH * 3_600_000;
  const folder = dirname(options.scenario);
  const farm = farmOf(scenario, options.seed, startMs, (airFile) => readAir(resolve(folder, airFile), startMs));
  const log = options.truthPath === undefined ? undefined : truthLog(options.truthPath);
  return {
    clock,
    startMs,
    untilMs,
    messages: playFarm(farm, { untilMs, stepS: options.stepS, onStep: log?.note, onAct: log?.handled }),
    principals: farm.piles.flatMap(({ site, probes }) => probes.map(({ name }) => ({ site, probe: name }))),
    close: async () => log?.close(),
  };
}

/** A file, repeated to the size asked for, or piles that are all different. */
function scenarioOf({ scenario, seed, siteCount, pileCount }: RunOptions): Scenario {
  const make = generators[scenario];
  if (make === undefined) return manyPiles(readScenario(scenario), siteCount, pileCount);
  return manyPiles(make(seed, pileCount ?? 20));
}

const generators: Record<string, ((seed: number, pileCount: number) => Scenario) | undefined> = {
  'by-condition': pilesByCondition,
  'by-keeper': pilesByKeeper,
  'by-mishap': pilesByMishap,
  'by-reading': pilesByReading,
};

function prepareReplay(options: ReplayCommandOptions): Play {
  const fromZero = readReplay({ ...options, startMs: 0 });
  const last = fromZero[fromZero.length - 1];
  if (last === undefined) throw new ConfigError(`Cannot replay ${options.path} as the chosen columns hold no value`);
  const durationH = options.durationH ?? last.sendAtMs / 3_600_000;
  const { clock, hourZeroMs } = chooseClock({ ...options, durationH });
  const startMs = hourZeroMs - (options.historyH ?? 0) * 3_600_000;
  const untilMs = hourZeroMs + durationH * 3_600_000;
  const probes = [...new Set(options.takes.map(({ probe }) => probe))];
  return {
    clock,
    startMs,
    untilMs,
    messages: readReplay({ ...options, startMs }).filter(({ sendAtMs }) => sendAtMs <= untilMs),
    principals: probes.map((probe) => ({ site: options.site, probe })),
    close: async () => {},
  };
}

async function sinkOf(options: RunOptions | ReplayCommandOptions, principals: readonly Principal[]): Promise<Sink> {
  const { csvPath } = options;
  if (csvPath === '-') return csvSink(process.stdout);
  if (csvPath !== undefined) return csvSink(createWriteStream(csvPath));
  return mqttSink({ ...options, url: options.mqttUrl, principals });
}
