/** `npm run move-readings -- --from … --to …`: readings from one store into another, proved by counts. */
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Config, readConfig } from '../../shared/config.ts';
import { openReadings } from '../../shared/store/open/open-readings.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { type MovedSeries, type MoveProgress, moveReadings } from './move-readings.ts';

const usage = `npm run move-readings -- --from PLACE --to PLACE [--each]

Copies every reading from one store into another, and compares. A PLACE is a data folder, or the http:// address of an
InfluxDB, spoken to with BRANHEARTH_READINGS_BUCKET, _ORG, _TOKEN and _GENERATION; a bucket of its own may follow the
address as ?bucket=NAME. Stop the server first. What is there already stays, so a run that was cut short is simply run
again. --each prints the counts of every series. Ends with 0 only when both stores have the same.`;

const mostDifferences = 20;
const progressMs = 2_000;

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      from: { type: 'string' },
      to: { type: 'string' },
      each: { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  const { from, to } = values;
  if (values.help || from === undefined || to === undefined) {
    console.log(usage);
    process.exitCode = values.help ? 0 : 2;
    return;
  }
  if (from === to) throw new Error('--from and --to must be two places: both are the same');
  const { config } = readConfig(process.env);
  const source = await openPlace(from, config, 'from');
  try {
    const target = await openPlace(to, config, 'to');
    try {
      report(await moveReadings(source, target, { progress: progressLine() }), values.each ?? false);
    } finally {
      await target.close();
    }
  } finally {
    await source.close();
  }
}

async function openPlace(place: string, config: Config, side: 'from' | 'to'): Promise<ReadingsStore> {
  if (/^https?:\/\//.test(place)) {
    const url = new URL(place);
    const bucket = url.searchParams.get('bucket') ?? config.READINGS_BUCKET;
    url.search = '';
    return openReadings({ ...config, READINGS_URL: url.href, READINGS_BUCKET: bucket });
  }
  if (side === 'from' && !existsSync(join(place, 'readings.db'))) {
    throw new Error(`There are no readings in ${place}: it has no readings.db`);
  }
  await mkdir(place, { recursive: true });
  return openReadings({ ...config, DATA_DIR: place, READINGS_URL: undefined });
}

function progressLine(): (progress: MoveProgress) => void {
  const startMs = performance.now();
  let saidMs = startMs;
  return ({ series, ofSeries, written, readings }) => {
    const nowMs = performance.now();
    if (nowMs - saidMs < progressMs) return;
    saidMs = nowMs;
    const perS = Math.round((written / (nowMs - startMs)) * 1000);
    console.error(
      `${shown(series)} of ${shown(ofSeries)} series, ${shown(readings)} readings, ${shown(written)} of them written now, ${shown(perS)} a second`,
    );
  };
}

function report(moved: readonly MovedSeries[], each: boolean): void {
  const differing = moved.filter(({ fromCount, toCount, difference }) => fromCount !== toCount || difference !== null);
  const listed = each ? moved : differing.slice(0, mostDifferences);
  for (const { site, probe, quantity, fromCount, toCount, difference } of listed) {
    const note = difference === null ? '' : `; ${difference}`;
    console.log(`${site}/${probe} ${quantity}: ${shown(fromCount)} there, ${shown(toCount)} here${note}`);
  }
  if (!each && differing.length > listed.length) console.log(`and ${differing.length - listed.length} more`);
  const sum = (count: (series: MovedSeries) => number) => moved.reduce((total, series) => total + count(series), 0);
  const [there, here] = [sum(({ fromCount }) => fromCount), sum(({ toCount }) => toCount)];
  console.log(`${shown(moved.length)} series, ${shown(there)} readings there, ${shown(here)} here`);
  if (differing.length === 0) console.log('Both have the same');
  else {
    console.log(`${shown(differing.length)} series differ`);
    process.exitCode = 1;
  }
}

const shown = (count: number) => count.toLocaleString('en');

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
