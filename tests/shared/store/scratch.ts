/** A folder of its own for one test, and what a crash would leave of a database. */
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** Removed when the test ends. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'branhearth-store-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/**
 * Copies a database that is still open, as a power cut would leave it: what was committed stands in the file or in
 * its write-ahead log, the index of that log and everything in memory are gone.
 */
export function copyAsAfterCrash(path: string, copyPath: string): string {
  for (const end of ['', '-wal']) {
    if (existsSync(path + end)) copyFileSync(path + end, copyPath + end);
  }
  return copyPath;
}
