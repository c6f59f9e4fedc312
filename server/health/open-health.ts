/** What watches over the server itself, where its data lie on this machine. */
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Config } from '../../shared/config.ts';
import { DiskWatch } from './disk-watch.ts';
import { SystemNotices } from './system-notices.ts';

export async function openSafe(
  config: Pick<Config, 'DATA_DIR' | 'DISK_LOW'>,
  clock: Clock,
  log: FastifyBaseLogger,
): Promise<{ disk: DiskWatch; notices: SystemNotices }> {
  const notices = new SystemNotices();
  const lowBytes = config.DISK_LOW * 1_000_000;
  const disk = await new DiskWatch({ folder: config.DATA_DIR, lowBytes, clock, log, notices }).start();
  return { disk, notices };
}
