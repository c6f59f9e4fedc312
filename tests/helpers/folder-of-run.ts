/** One folder for a whole run of the tests: what its workers make once and use until the end. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    readonly folderOfRun: string;
  }
}

export default function makeFolder({ provide }: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'branhearth-run-'));
  provide('folderOfRun', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
