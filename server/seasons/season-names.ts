/**
 * server/seasons/season-names.ts: what the grower calls a season, e.g. "the dry spring".
 */
import { z } from 'zod';
import type { Journal } from '../../shared/store/journal.ts';

const settingKey = 'season-names';
const namesSchema = z.record(z.string(), z.string());

export async function readSeasonNames(journal: Journal): Promise<ReadonlyMap<string, string>> {
  const text = await journal.settings.get(settingKey);
  return new Map(Object.entries(text === undefined ? {} : namesSchema.parse(JSON.parse(text))));
}

export async function nameSeason(journal: Journal, id: string, name: string | null): Promise<void> {
  const names = new Map(await readSeasonNames(journal));
  if (name === null) names.delete(id);
  else names.set(id, name);
  await journal.settings.set(settingKey, JSON.stringify(Object.fromEntries(names)));
}
