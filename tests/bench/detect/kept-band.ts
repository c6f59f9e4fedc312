/**
 * Expected bands kept between runs in the folder BRANHEARTH_BENCH_KEEP, for whoever tunes something else; without it every
 * band is made anew. Their names carry a digest of the rooms that make a band, so that none outlives its code.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { ExpectedBand } from '../../../core/expect/band.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import type { AirReading } from '../../../core/profiles/air-reading.ts';
import type { PileSetup } from '../../../core/profiles/pile-setup.ts';

const folder = process.env.BRANHEARTH_BENCH_KEEP;
let code: string | undefined;

export function keptBand(
  setup: PileSetup,
  air: readonly AirReading[],
  toMs: number,
  guessedAirC: number | undefined,
): ExpectedBand {
  if (folder === undefined) return expectedBand(setup, air, toMs, { guessedAirC });
  code ??= digestOfCode();
  const name = createHash('sha1')
    .update(code)
    .update(JSON.stringify([setup, toMs, guessedAirC]));
  name.update(Float64Array.from(air.flatMap(({ atMs, tempC }) => [atMs, tempC])));
  const path = join(folder, `${name.digest('hex')}.band`);
  if (existsSync(path)) return deserialize(readFileSync(path)) as ExpectedBand;
  const band = expectedBand(setup, air, toMs, { guessedAirC });
  mkdirSync(folder, { recursive: true });
  // Another run may be writing the same one.
  writeFileSync(`${path}.${process.pid}`, serialize(band));
  renameSync(`${path}.${process.pid}`, path);
  return band;
}

function digestOfCode(): string {
  // The sources, found from where the bench is called: the root of the project.
  const root = process.cwd();
  const digest = createHash('sha1');
  for (const room of ['core/expect', 'core/physics', 'core/profiles']) {
    for (const file of readdirSync(join(root, room)).sort()) digest.update(readFileSync(join(root, room, file)));
  }
  return digest.digest('hex');
}
