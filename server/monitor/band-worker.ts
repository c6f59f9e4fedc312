/** The thread that computes expected curves for band-keeper.ts. */
import { parentPort } from 'node:worker_threads';
import { answerBand, type BandQuestion } from './band-keeper.ts';

parentPort?.on('message', ({ id, question }: { id: number; question: BandQuestion }) => {
  try {
    parentPort?.postMessage({ id, band: answerBand(question) });
  } catch (error) {
    parentPort?.postMessage({ id, error: error instanceof Error ? error.message : String(error) });
  }
});
