import { existsSync } from 'node:fs';
import { statfs } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Config } from '../../shared/config.ts';
import { mustBeUsable } from '../health/data-folder.ts';
import { type Finding, messageOf } from './finding.ts';

/** Whether the data folder may be used, and has room. */
export async function checkFolder({
  DATA_DIR,
  DISK_LOW,
  JOURNAL_URL,
  READINGS_URL,
}: Pick<Config, 'DATA_DIR' | 'DISK_LOW' | 'JOURNAL_URL' | 'READINGS_URL'>): Promise<Finding> {
  const part = 'folder';
  const shown = resolve(DATA_DIR);
  if (JOURNAL_URL !== undefined && READINGS_URL !== undefined) {
    return { part, state: 'off', says: 'nothing is kept on this machine: readings and journal are at servers' };
  }
  if (!existsSync(DATA_DIR)) return { part, state: 'ok', says: `${shown} is made at the first start` };
  try {
    await mustBeUsable(DATA_DIR);
    const { bavail, bsize } = await statfs(DATA_DIR);
    const freeMb = Math.floor((bavail * bsize) / 1_000_000);
    if (freeMb >= DISK_LOW) return { part, state: 'ok', says: `${shown} may be written to, ${freeMb} MB are free` };
    return {
      part,
      state: 'wrong',
      says: `${shown} has ${freeMb} MB free, and ${DISK_LOW} are wanted (BRANHEARTH_DISK_LOW)`,
      mend: 'make room on that disk, or move the folder to another and name it in BRANHEARTH_DATA_DIR',
    };
  } catch (error) {
    return { part, state: 'wrong', says: messageOf(error) };
  }
}
