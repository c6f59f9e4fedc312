import type { SpawnedInstallation } from './spawn-server.ts';

/** Readings that a process says it has kept since it started. */
export async function storedCount({ pagesUrl }: Pick<SpawnedInstallation, 'pagesUrl'>): Promise<number> {
  const text = await (await fetch(`${pagesUrl}/metrics`)).text();
  return Number(/^branhearth_readings_stored_total (\d+)/m.exec(text)?.[1] ?? 0);
}
