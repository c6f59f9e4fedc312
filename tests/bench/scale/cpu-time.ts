/** Processor time that processes have used (Linux). */
import { readdirSync, readFileSync } from 'node:fs';

/** The kernel counts in hundredths of a second. */
const ticksPerS = 100;

/** Of one process with all its threads [s]. */
export function cpuSOf(pid: number | undefined): number {
  const stat = statOf(pid);
  return stat ? (Number(stat.fields[11]) + Number(stat.fields[12])) / ticksPerS : Number.NaN;
}

/** Of one process and its children, those that ended included [s]: PostgreSQL serves each connection by one of its own. */
export function cpuSOfFamily(pid: number): number {
  const ended = statOf(pid)?.fields.slice(13, 15).map(Number) ?? [];
  return [pid, ...childrenOf(pid)].map(cpuSOf).reduce(sum, ended.reduce(sum, 0) / ticksPerS);
}

/** Children of this process that run a program of that name. */
export function childrenCalled(program: string): number[] {
  return childrenOf(process.pid).filter((pid) => statOf(pid)?.name === program);
}

function childrenOf(parent: number): number[] {
  const all = readdirSync('/proc').map(Number).filter(Number.isInteger);
  return all.filter((pid) => Number(statOf(pid)?.fields[1]) === parent);
}

const sum = (total: number, one: number) => total + (Number.isNaN(one) ? 0 : one);

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
