/** Memory that a process has in use. */
import { readFile } from 'node:fs/promises';

/** As the kernel counts it (Linux; NaN elsewhere) [MB]. */
export async function residentMb(pid: number | undefined): Promise<number> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8').catch(() => '');
  return Math.round((Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1] ?? Number.NaN) * 1_024) / 1e6);
}
