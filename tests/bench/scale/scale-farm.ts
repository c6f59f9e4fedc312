/**
 * A data folder as a week of work leaves it: sites of 25 piles, a bran batch laid a week ago on each, its four probes
 * claimed, one temperature an hour behind each. Written past the program: a start on such a folder is what is measured.
 */
import { join } from 'node:path';
import type { Position } from '../../../shared/names.ts';
import type { Reading } from '../../../shared/reading.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import Database from '../../../shared/store/sqlite-driver.ts';
import { msPerHour } from '../../../shared/units.ts';

const probesPerPile = 4;
const pilesPerSite = 25;
const laidBeforeH = 168;
const positions: readonly Position[] = ['core', 'top', 'base', 'air'];

/** What lies on each pile. */
export const farmRecipe = {
  material: 'wheat-bran',
  depthM: 0.3,
  massKg: 200,
  moistureFrac: 0.6,
  cover: 'breathable',
} as const;

export interface FarmProbe {
  readonly site: string;
  readonly probe: string;
  readonly pileId: string;
  readonly position: Position;
}

export function scaleProbes(count: number): FarmProbe[] {
  return Array.from({ length: count }, (_, index) => {
    const pile = Math.floor(index / probesPerPile);
    const position = positions[index % probesPerPile] ?? 'core';
    const site = `site-${Math.floor(pile / pilesPerSite)}`;
    return { site, probe: `p${pile}-${position}`, pileId: `pile-${pile}`, position };
  });
}

export async function layScaleFarm(dataDir: string, probes: readonly FarmProbe[], nowMs: number): Promise<void> {
  const laidMs = Math.floor(nowMs / msPerHour) * msPerHour - laidBeforeH * msPerHour;
  const journalPath = join(dataDir, 'journal.db');
  await (await openSqliteJournal(journalPath)).close();
  writeJournal(journalPath, probes, laidMs);
  await writeReadings(join(dataDir, 'readings.db'), probes, laidMs);
}

function writeJournal(path: string, probes: readonly FarmProbe[], laidMs: number): void {
  const db = new Database(path);
  db.pragma('synchronous = OFF');
  const addSite = db.prepare('INSERT OR IGNORE INTO site (id, name) VALUES (?, ?)');
  const addPile = db.prepare('INSERT INTO pile (id, site_id, name, created_at_ms) VALUES (?, ?, ?, ?)');
  const addBatch = db.prepare(
    `INSERT INTO batch (id, pile_id, stage, started_at_ms, recipe, limits) VALUES (?, ?, 'bran', ?, ?, '{}')`,
  );
  const addClaim = db.prepare('INSERT INTO claim (site, probe, pile_id, position, from_ms) VALUES (?, ?, ?, ?, ?)');
  const recipe = JSON.stringify(farmRecipe);
  db.transaction(() => {
    for (const { site, probe, pileId, position } of probes) {
      if (position === 'core') {
        addSite.run(site, site);
        addPile.run(pileId, site, pileId, laidMs);
        addBatch.run(`batch-of-${pileId}`, pileId, laidMs, recipe);
      }
      addClaim.run(site, probe, pileId, position, laidMs);
    }
  })();
  db.close();
}

async function writeReadings(path: string, probes: readonly FarmProbe[], laidMs: number): Promise<void> {
  const store = openSqliteReadings(path);
  for (let hour = 0; hour < laidBeforeH; hour += 1) {
    const atMs = laidMs + hour * msPerHour;
    for (let first = 0; first < probes.length; first += 5_000) {
      await store.append(
        probes.slice(first, first + 5_000).map((probe, index) => readingAt(probe, first + index, atMs, hour)),
      );
    }
  }
  await store.close();
}

function readingAt({ site, probe, position }: FarmProbe, index: number, atMs: number, hour: number): Reading {
  // Not all at the same second, as real probes.
  return { site, probe, quantity: 'temperature', value: tempAtC(position, hour), atMs: atMs + (index % 3_000) * 1_000 };
}

/** A bed that warms by the second day and cools in the second week [°C], in sixteenths as one-wire chips speak. */
export function tempAtC(position: Position, hour: number): number {
  const airC = 20 + 5 * Math.cos((2 * Math.PI * (hour - 15)) / 24);
  const heatK = 22 / (1 + Math.exp((30 - hour) / 5)) / (1 + Math.exp((hour - 210) / 20));
  const share = { core: 1, base: 0.7, top: 0.5, edge: 0.5, air: 0 }[position];
  const fromC = position === 'core' || position === 'base' ? 20 : airC;
  return Math.round((fromC + share * heatK) * 16) / 16;
}
