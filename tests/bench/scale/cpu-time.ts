/** Processor time that processes have used (Linux). */
import { readdirSync, readFileSync } from 'node:fs';

/** The kernel counts in hundredths of a second. */
const ticksPerS = 100;

/** Of one process with all its threads [s]. */
export function cpuSOf(pid: number | undefined): number {
  const stat = statOf(pid);
  return stat ? (Number(stat.fields[11]) + Number(stat.fields[12])) / ticksPerS : Number.NaN;
}

/** Children of this process that run a program of that name. */
export function childrenCalled(program: string): number[] {
  const all = readdirSync('/proc').map(Number).filter(Number.isInteger);
  return all.filter((pid) => {
    const stat = statOf(pid);
    return stat?.name === program && Number(stat.fields[1]) === process.pid;
  });
}

/** proc(5): the name stands in parentheses; `fields` begin with the state after it. */
function statOf(pid: number | undefined): { name: string; fields: string[] } | undefined {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const end = text.lastIndexOf(')');
    return { name: text.slice(text.indexOf('(') + 1, end), fields: text.slice(end + 2).split(' ') };
  } catch {
    return undefined; // it ended, or there is no /proc
  }
}
