/** The clock of one process, set forward and back while it runs. */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type Fault, seconds } from './fault-server.ts';

export interface SteppedClock {
  readonly nodeArguments: readonly string[];
  readonly plainEnvironment: Readonly<Record<string, string>>;
  readonly fault: Fault;
}

export async function steppedClock(folder: string): Promise<SteppedClock> {
  const file = join(folder, 'clock-is-off-by');
  const set = (offMs: number) => writeFile(file, String(offMs));
  await set(0);
  return {
    nodeArguments: ['--import', new URL('./stepped-clock.js', import.meta.url).href],
    plainEnvironment: { BENCH_CLOCK_FILE: file },
    fault: {
      // At the server's sixty-fold clock: an hour forward and back, then four minutes back and forward. Further back
      // than five minutes readings of right clocks come from the future, and are refused as such.
      name: 'clock set +1 h, back, -4 min, back (server time)',
      async run() {
        for (const [offMs, forS] of [
          [60_000, 4],
          [0, 3],
          [-4_000, 4],
          [0, 0],
        ] as const) {
          await set(offMs);
          await seconds(forS);
        }
      },
    },
  };
}
