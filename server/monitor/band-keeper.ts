/**
 * Expected curves, computed beside the main thread one after the other. It never lets the heavy sum hold up readings or
 * pages.
 */
import { Worker } from 'node:worker_threads';
import { usableAhead } from '../../core/expect/air-ahead.ts';
import type { ExpectedBand } from '../../core/expect/band.ts';
import { compactBand } from '../../core/expect/compact-band.ts';
import { expectedBand } from '../../core/expect/expected-band.ts';
import { blendFinished, type FinishedBatch } from '../../core/expect/finished.ts';
import { membersFrom } from '../../core/expect/member-window.ts';
import { lookedBackH } from '../../core/forecast/alike.ts';
import type { AirAhead } from '../../core/profiles/air-reading.ts';
import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import { msPerHour } from '../../shared/units.ts';

export interface BandQuestion {
  readonly setup: PileSetup;
  readonly air: readonly { atMs: number; tempC: number }[];
  /** What it is taken as where nobody measured it [°C]. */
  readonly guessedAirC?: number | undefined;
  /** What somebody foretold of the air at the site; null where nobody did. */
  readonly airAhead?: AirAhead | null;
  readonly nowMs: number;
  /** The grower's own finished batches of the stage. */
  readonly finished: readonly FinishedBatch[];
  readonly toMs: number;
  /** Forecasts are made from here on: what they do not look back at is not kept. */
  readonly forecastFromMs: number;
}

export interface BandKeeper {
  compute(question: BandQuestion): Promise<ExpectedBand>;
  close(): Promise<void>;
}

/** The sum itself, wherever it runs. */
export function answerBand(question: BandQuestion): ExpectedBand {
  const { setup, air, guessedAirC, finished, toMs, nowMs, forecastFromMs } = question;
  const { points: foretold, used } = question.airAhead
    ? usableAhead(question.airAhead, nowMs)
    : { points: [], used: null };
  const fromHour = (forecastFromMs - setup.startedAtMs) / msPerHour - lookedBackH;
  const worked = membersFrom(expectedBand(setup, air, toMs, { foretold, guessedAirC }), fromHour);
  // Beyond its own end a band reckons with nothing.
  const airAhead = used && { ...used, untilMs: Math.min(used.untilMs, toMs) };
  return compactBand(blendFinished(airAhead ? { ...worked, airAhead } : worked, finished));
}

interface Answer {
  readonly id: number;
  readonly band?: ExpectedBand;
  readonly error?: string;
}

/** Curves are asked for every few hours, so the thread and its memory go when it has had nothing to do for so long. */
const idleMs = 15_000;

/** One worker thread; questions wait their turn in it. @param ended Called when it has gone for want of work. */
export function bandWorker(ended: () => void = () => {}): BandKeeper {
  const waiting = new Map<number, { resolve: (band: ExpectedBand) => void; reject: (error: Error) => void }>();
  let worker: Worker | undefined;
  let idle: NodeJS.Timeout | undefined;
  let lastId = 0;

  const failAll = (error: Error) => {
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
    worker = undefined;
  };
  const stop = async () => {
    const stopped = worker;
    worker = undefined;
    await stopped?.terminate();
  };
  const start = () => {
    const started = new Worker(new URL('./band-worker.js', import.meta.url));
    started.on('message', ({ id, band, error }: Answer) => {
      const asked = waiting.get(id);
      waiting.delete(id);
      if (band) asked?.resolve(band);
      else asked?.reject(new Error(error ?? 'no band'));
      if (waiting.size === 0) idle = setTimeout(() => void stop().then(ended), idleMs).unref();
    });
    started.on('error', failAll);
    started.unref();
    return started;
  };

  return {
    compute(question) {
      clearTimeout(idle);
      worker ??= start();
      const id = ++lastId;
      worker.postMessage({ id, question });
      return new Promise((resolve, reject) => waiting.set(id, { resolve, reject }));
    },
    async close() {
      clearTimeout(idle);
      await stop();
      failAll(new Error('closed'));
    },
  };
}
