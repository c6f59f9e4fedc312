/** What the grower calls a season, e.g. "the dry spring". */
import { z } from 'zod';
import type { Journal } from '../../../shared/store/journal.ts';
import { UnreadableRowError } from '../../../shared/store/unreadable.ts';

const settingKey = 'season-names';
const namesSchema = z.record(z.string(), z.string());

export async function readSeasonNames(journal: Journal): Promise<ReadonlyMap<string, string>> {
  try {
    return new Map(Object.entries(await namesKept(journal)));
  } catch (error) {
    if (error instanceof UnreadableRowError) return new Map(); // noted; seasons are then called by their months
    throw error;
  }
}

export async function nameSeason(journal: Journal, id: string, name: string | null): Promise<void> {
  const names = new Map(Object.entries(await namesKept(journal)));
  if (name === null) names.delete(id);
  else names.set(id, name);
  await journal.settings.write(settingKey, Object.fromEntries(names));
}

async function namesKept(journal: Journal): Promise<Record<string, string>> {
  return (await journal.settings.read(settingKey, namesSchema)) ?? {};
}
