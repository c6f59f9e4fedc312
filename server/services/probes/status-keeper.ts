/**
 * Keeps each probe's status in the journal: the first word at once, and of what follows within a second the last, so
 * that one that comes and goes all the time costs a write a second.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { Journal } from '../../../shared/store/journal.ts';

export interface StatusKeeper {
  keep(site: string, probe: string, online: boolean, atMs: number): void;
}

interface Said {
  readonly online: boolean;
  readonly atMs: number;
}

const onceInMs = 1_000;

export function createStatusKeeper(journal: Pick<Journal, 'probes'>, log: FastifyBaseLogger): StatusKeeper {
  /** What was said since the last write of that probe; undefined while nothing was. */
  const since = new Map<string, Said | undefined>();

  function write(site: string, probe: string, { online, atMs }: Said): void {
    const name = `${site}/${probe}`;
    since.set(name, undefined);
    journal.probes
      .setOnline(site, probe, online, atMs)
      .catch((error) => log.error({ err: error, site, probe }, 'status not kept'));
    setTimeout(() => {
      const said = since.get(name);
      if (said === undefined) since.delete(name);
      else write(site, probe, said);
    }, onceInMs).unref();
  }

  return {
    keep(site, probe, online, atMs) {
      const name = `${site}/${probe}`;
      if (since.has(name)) since.set(name, { online, atMs });
      else write(site, probe, { online, atMs });
    },
  };
}
