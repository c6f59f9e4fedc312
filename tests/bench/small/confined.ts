/** A process on a small machine: one core, so much memory, a disk as slow as a card. Linux with control groups of version 1. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Bounds {
  readonly memoryMb: number;
  /** Of the disk that holds the folder. */
  readonly bytesPerS: number;
  readonly writesPerS: number;
}

export interface Confined {
  /** What could be had of it here. */
  readonly says: string;
  /** Puts a process there, with all that it starts from then on. */
  take(pid: number): void;
  /** The most memory that was in use there, files in cache included [MB]; NaN where nobody counts. */
  mostMb(): number;
  remove(): void;
}

const root = '/sys/fs/cgroup';

export function confine(folder: string, bounds: Bounds): Confined {
  const name = `branhearth-bench-${process.pid}`;
  const [memory, blkio] = ['memory', 'blkio'].map((kind) => join(root, kind, name)) as [string, string];
  try {
    for (const group of [memory, blkio]) mkdirSync(group);
    writeFileSync(join(memory, 'memory.limit_in_bytes'), String(bounds.memoryMb * 2 ** 20));
    const disk = diskOf(folder);
    for (const way of ['read', 'write'])
      writeFileSync(join(blkio, `blkio.throttle.${way}_bps_device`), `${disk} ${bounds.bytesPerS}`);
    writeFileSync(join(blkio, 'blkio.throttle.write_iops_device'), `${disk} ${bounds.writesPerS}`);
  } catch (error) {
    for (const group of [memory, blkio]) if (existsSync(group)) rmdirSync(group);
    return {
      says: `one core by taskset; no control group of version 1 can be made here (${error instanceof Error ? error.message : error})`,
      take: onOneCore,
      mostMb: () => Number.NaN,
      remove: () => undefined,
    };
  }
  return {
    says: `one core by taskset; ${bounds.memoryMb} MB, ${bounds.bytesPerS / 1e6} MB/s and ${bounds.writesPerS} writes/s by control groups`,
    take(pid) {
      for (const group of [memory, blkio]) writeFileSync(join(group, 'cgroup.procs'), String(pid));
      onOneCore(pid);
    },
    mostMb: () => Math.round(Number(readFileSync(join(memory, 'memory.max_usage_in_bytes'), 'utf8')) / 1e6),
    remove() {
      for (const group of [memory, blkio]) rmdirSync(group);
    },
  };
}

function onOneCore(pid: number): void {
  execFileSync('taskset', ['-a', '-p', '-c', '0', String(pid)], { stdio: 'ignore' });
}

/** The whole disk, as only that can be bounded: a partition has the number 0 taken away. */
function diskOf(folder: string): string {
  const { dev } = statSync(folder);
  const [major, minor] = [(dev >> 8) & 0xfff, (dev & 0xff) | ((dev >> 12) & 0xfff00)];
  const partition = join('/sys/dev/block', `${major}:${minor}`, 'partition');
  if (!existsSync(partition)) return `${major}:${minor}`;
  return readFileSync(join('/sys/dev/block', `${major}:${minor}`, '../dev'), 'utf8').trim();
}
