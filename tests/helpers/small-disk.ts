/** A file system of a few megabytes of its own, that can be filled and freed. */
import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmdirSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface SmallDisk {
  readonly folder: string;
  /** Writes until nothing more fits. */
  fill(): void;
  free(): void;
  remove(): void;
}

export function mountSmallDisk(megabytes: number): SmallDisk {
  const folder = mkdtempSync(join(tmpdir(), 'branhearth-disk-'));
  execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m,mode=0700`, 'tmpfs', folder], { stdio: 'ignore' });
  const ballast = join(folder, 'ballast');
  return {
    folder,
    fill() {
      const file = openSync(ballast, 'a');
      for (let bytes = 1 << 20; bytes >= 512; ) {
        try {
          if (writeSync(file, Buffer.alloc(bytes, 1)) < bytes) bytes >>= 1;
        } catch {
          bytes >>= 1;
        }
      }
      closeSync(file);
    },
    free: () => rmSync(ballast, { force: true }),
    remove() {
      execFileSync('umount', ['-l', folder], { stdio: 'ignore' });
      rmdirSync(folder);
    },
  };
}

function tryMount(): boolean {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
  try {
    mountSmallDisk(1).remove();
    return true;
  } catch {
    return false;
  }
}

export const canMount = tryMount();
if (!canMount) {
  console.warn('\n*** NOT TESTED on a disk that is really full: only root on Linux may mount a small one ***\n');
}
