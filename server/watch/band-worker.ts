/**
 * server/watch/band-worker.ts: the thread that computes expected curves for band-keeper.ts.
 */
import { parentPort } from 'node:worker_threads';
import { expectedBand } from '../../core/curve/expected-band.ts';
import type { BandQuestion } from './band-keeper.ts';

parentPort?.on('message', ({ id, question }: { id: number; question: BandQuestion }) => {
  try {
    const band = expectedBand(question.setup, [...question.air], question.toMs);
    parentPort?.postMessage({ id, band });
  } catch (error) {
    parentPort?.postMessage({ id, error: error instanceof Error ? error.message : String(error) });
  }
});
