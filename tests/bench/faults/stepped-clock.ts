/**
 * Loaded before a server, it lets a bench set the clock of that one process: Date.now is off by what the file
 * BENCH_CLOCK_FILE holds [ms]; the time that nobody sets goes on as it does.
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
