/** How a bench asks a server what its memory is made of. */
import { request } from 'node:http';
import { join } from 'node:path';
import type { MemoryInside } from './memory-inside.ts';

export interface MemoryPort {
  /** For `spawnInstallation`. */
  readonly nodeArguments: readonly string[];
  readonly plainEnvironment: Readonly<Record<string, string>>;
  /** @param how `collected`: after all garbage was collected, which holds the server up for a moment. */
  ask(how?: 'collected'): Promise<MemoryInside>;
}

export function memoryPort(folder: string): MemoryPort {
  const socketPath = join(folder, 'memory.socket');
  return {
    nodeArguments: ['--import', new URL('./memory-inside.js', import.meta.url).href],
    plainEnvironment: { BENCH_MEMORY_SOCKET: socketPath },
    ask: (how) =>
      new Promise((resolve, reject) => {
        request({ socketPath, path: `/${how ?? ''}` }, (response) => {
          let text = '';
          response.setEncoding('utf8');
          response.on('data', (chunk: string) => {
            text += chunk;
          });
          response.on('end', () => resolve(JSON.parse(text) as MemoryInside));
        })
          .on('error', reject)
          .end();
      }),
  };
}
