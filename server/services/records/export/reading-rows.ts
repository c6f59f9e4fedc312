/**
 * Every reading of a batch as rows, by the position its probe held then.
 *
 * Of a time that was downsampled each row is ten minutes: their mean at their middle, with how many readings it stands for.
 */
import { toInstant } from '../../../../shared/contracts/time.ts';
import { quantities, quantityFacts } from '../../../../shared/quantity.ts';
import type { ReadingsStore } from '../../../../shared/store/readings-store.ts';
import { judged, type PileSource, sourceSeries } from '../../../pile/pile-sources.ts';
import type { Row } from './subjects.ts';

export const readingColumns = [
  'time',
  'site',
  'probe',
  'position',
  'quantity',
  'value',
  'unit',
  'row is',
  'readings',
  'least',
  'most',
] as const;

const pageRows = 10_000;

export async function* readingRows(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  { fromMs, toMs }: { fromMs: number; toMs: number },
): AsyncGenerator<Row> {
  const series = sourceSeries(sources, quantities);
  for (let nextMs = fromMs; nextMs < toMs; ) {
    const page = await readings.rows(series, nextMs, toMs, pageRows);
    const last = page.at(-1);
    if (!last) return;
    for (const reading of page) {
      const held = judged(sources, reading);
      if (!held) continue;
      const { site, probe, quantity, value, atMs, standsFor } = reading;
      yield {
        time: toInstant(atMs),
        site,
        probe,
        position: held.position,
        quantity,
        value,
        unit: quantityFacts[quantity].unit,
        'row is': standsFor === undefined ? 'a reading' : 'the mean of ten minutes',
        readings: standsFor?.count ?? 1,
        least: standsFor?.min ?? value,
        most: standsFor?.max ?? value,
      };
    }
    nextMs = last.atMs + 1;
  }
}
