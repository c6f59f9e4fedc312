import { statSync } from 'node:fs';
import type Database from '../sqlite-driver.ts';

/** What the readings take on disk, or in memory [bytes]. */
export function bytesOf(db: Database.Database): number {
  if (db.memory) {
    const pages = Number(db.pragma('page_count', { simple: true }));
    return pages * Number(db.pragma('page_size', { simple: true }));
  }
  const { name } = db;
  return [name, `${name}-wal`].reduce((sum, file) => sum + (statSync(file, { throwIfNoEntry: false })?.size ?? 0), 0);
}
