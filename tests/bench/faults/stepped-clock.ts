/**
 * Loaded before a server, it lets a bench set the clock of that one process.
 *
 * Takes:  BENCH_CLOCK_FILE, a file that holds by how much the clock is off [ms].
 * Gives:  a Date.now that is off by that; the time that nobody sets goes on as it does.
 */
import { readFileSync } from 'node:fs';

const file = process.env.BENCH_CLOCK_FILE;
const everyMs = 50;

if (file !== undefined) {
  const machineNowMs = Date.now;
  let offMs = 0;
  const read = () => {
    offMs = Number(readFileSync(file, 'utf8')) || 0;
  };
  read();
  setInterval(read, everyMs).unref();
  Date.now = () => machineNowMs() + offMs;
}
