/**
 * A process of its own that asks one address at a steady pace, as a watchdog or a page does, and says how long each answer
 * took. Told "figures", it says what it measured since it was asked before.
 */
import { request } from 'node:http';

const everyMs = 25;
/** An answer that takes longer counts as this long, and as failed. */
const patienceMs = 20_000;

export interface SteadyFigures {
  /** Shortest first. */
  readonly tookMs: readonly number[];
  readonly failed: number;
}

function ask(url: string): Promise<{ tookMs: number; isGood: boolean }> {
  const startMs = performance.now();
  return new Promise((resolve) => {
    const answered = (isGood: boolean) => resolve({ tookMs: performance.now() - startMs, isGood });
    const asked = request(url, { agent: false, timeout: patienceMs }, (answer) => {
      answer.resume().once('end', () => answered(answer.statusCode === 200));
    });
    asked.once('timeout', () => asked.destroy());
    asked.once('error', () => answered(false));
    asked.end();
  });
}

async function main(url: string): Promise<void> {
  let took: number[] = [];
  let failed = 0;
  process.on('message', () => {
    const figures: SteadyFigures = { tookMs: took.sort((a, b) => a - b), failed };
    [took, failed] = [[], 0];
    process.send?.(figures);
  });
  // Begun at a steady pace whether or not the one before was answered: a freeze is felt by all who come during it.
  setInterval(() => {
    void ask(url).then(({ tookMs, isGood }) => {
      took.push(tookMs);
      if (!isGood) failed += 1;
    });
  }, everyMs);
}

if (process.argv[2] !== undefined) await main(process.argv[2]);
