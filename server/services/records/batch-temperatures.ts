/** The temperatures of a batch by position: as a curve, hour by hour, and every reading. */
import { startRuleLog } from '../../../core/records/composting-rules.ts';
import { followHeatHistory, type HeatHistory } from '../../../core/records/heat-history.ts';
import { followHeat, type HeatLog } from '../../../core/records/heat-log.ts';
import type { BatchRecordSheet } from '../../../shared/contracts/records.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { isHandProbe } from '../../../shared/hand-series.ts';
import { type Position, positions } from '../../../shared/names.ts';
import type { ReadingsStore, SeriesPart } from '../../../shared/store/readings-store.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../../shared/units.ts';
import { judged, type PileSource, sourceSeries } from '../../pile/pile-sources.ts';

type Curve = BatchRecordSheet['curves']['temperatureC'][number];

const pageRows = 50_000;

function parts(sources: readonly PileSource[]): SeriesPart[] {
  return sources.map(({ claim: { site, probe, fromMs, toMs } }) => ({
    site,
    probe,
    quantity: 'temperature',
    fromMs,
    toMs,
  }));
}

/** Of probes; what was measured by hand is no curve. */
export async function temperatureCurves(
  readings: ReadingsStore,
  allSources: readonly PileSource[],
  range: { fromMs: number; toMs: number },
  points: number,
): Promise<Omit<BatchRecordSheet['curves'], 'byHand'>> {
  const sources = allSources.filter(({ claim }) => !isHandProbe(claim.probe));
  if (range.fromMs >= range.toMs) return { bucketMs: 0, temperatureC: [] };
  const { bucketMs, columns } = await readings.buckets(parts(sources), range.fromMs, range.toMs, points);
  const curves = new Map<Position, Curve['points']>();
  sources.forEach(({ position }, i) => {
    const column = columns[i];
    if (!column) return;
    const shown = curves.get(position) ?? [];
    curves.set(position, shown);
    column.startMs.forEach((startMs, at) => {
      const [min, mean, max] = [column.min[at], column.mean[at], column.max[at]].map((value) =>
        rounded(value ?? Number.NaN),
      );
      shown.push({ at: toInstant(startMs), min: min ?? 0, mean: mean ?? 0, max: max ?? 0 });
    });
  });
  const temperatureC = positions.flatMap((position): Curve[] => {
    const shown = curves.get(position);
    return shown && shown.length > 0 ? [{ position, points: shown.sort((a, b) => (a.at < b.at ? -1 : 1)) }] : [];
  });
  return { bucketMs, temperatureC };
}

/** To a hundredth: beyond every probe's resolution. */
function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}

/** Signs of heat are sought in so much of a batch's end; a bed left for a year says no more than its last weeks. */
const longestMs = 60 * msPerDay;

/** Hourly means of core and air from the first whole hour on. */
export async function hourlyTemperatures(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  { fromMs, toMs }: { fromMs: number; toMs: number },
): Promise<{ firstMs: number; coreC: (number | null)[]; airC: (number | null)[] }> {
  const firstMs = Math.ceil(Math.max(fromMs, toMs - longestMs) / msPerHour) * msPerHour;
  const hours = Math.floor((toMs - firstMs) / msPerHour);
  const empty = () => Array.from({ length: Math.max(0, hours) }, (): number | null => null);
  const [coreC, airC] = [empty(), empty()];
  if (hours < 1) return { firstMs, coreC, airC };
  const wanted = sources.filter(({ position }) => position === 'core' || position === 'air');
  // Whole hours, as many as points: the store then answers by the hour.
  const { columns } = await readings.buckets(parts(wanted), firstMs, firstMs + hours * msPerHour, hours);
  wanted.forEach(({ position }, i) => {
    const target = position === 'core' ? coreC : airC;
    columns[i]?.startMs.forEach((startMs, at) => {
      target[(startMs - firstMs) / msPerHour] = columns[i]?.mean[at] ?? null;
    });
  });
  return { firstMs, coreC, airC };
}

const tenMinutesMs = 10 * msPerMinute;

/** Follows the ten-minute means of each place inside the pile: near enough for a question that is asked while somebody waits. */
export async function tenMinuteHistory(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  { fromMs, toMs }: { fromMs: number; toMs: number },
  history: HeatHistory,
): Promise<void> {
  const firstMs = Math.floor(Math.max(fromMs, toMs - longestMs) / tenMinutesMs) * tenMinutesMs;
  const points = Math.ceil((toMs - firstMs) / tenMinutesMs);
  if (points < 1) return;
  const inside = sources.filter(({ position }) => position !== 'air');
  const { bucketMs, columns } = await readings.buckets(parts(inside), firstMs, firstMs + points * tenMinutesMs, points);
  inside.forEach(({ position }, i) => {
    if (position === 'air') return;
    columns[i]?.startMs.forEach((startMs, at) => {
      const meanC = columns[i]?.mean[at];
      if (meanC !== undefined) followHeatHistory(history, position, meanC, startMs + bucketMs / 2);
    });
  });
}

/** Until when only ten-minute means of a batch are kept; 0 when all of its readings are. */
export async function downsampledTo(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  { fromMs, toMs }: { fromMs: number; toMs: number },
): Promise<number> {
  const rawFromMs = await readings.rawFrom(sourceSeries(sources, ['temperature']));
  return rawFromMs > fromMs ? Math.min(rawFromMs, toMs) : 0;
}

/**
 * The heat log of each position inside the pile, from every reading, or what stands for it.
 * @param history Follows the same readings, where it is wanted.
 */
export async function heatLogs(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  { fromMs, toMs }: { fromMs: number; toMs: number },
  history?: HeatHistory,
): Promise<Map<Position, HeatLog>> {
  const inside = sources.filter(({ position }) => position !== 'air');
  const series = sourceSeries(inside, ['temperature']);
  const logs = new Map<Position, HeatLog>();
  for (let nextMs = fromMs; nextMs < toMs; ) {
    const rows = await readings.rows(series, nextMs, toMs, pageRows);
    const last = rows.at(-1);
    if (!last) break;
    for (const row of rows) {
      const reading = judged(inside, row);
      if (!reading) continue;
      const log = logs.get(reading.position) ?? startRuleLog();
      logs.set(reading.position, log);
      followHeat(log, reading.atMs, reading.value, row.standsFor);
      if (history && reading.position !== 'air')
        followHeatHistory(history, reading.position, reading.value, reading.atMs);
    }
    nextMs = last.atMs + 1;
  }
  return logs;
}
