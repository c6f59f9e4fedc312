/** The expected band and the next hours as a chart takes them. */
import type { BandPoint, BandSource, SeriesAnswer } from '../../shared/contracts/series.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { msPerHour } from '../../shared/units.ts';
import type { BandLines, ExpectedBand } from '../expect/band.ts';
import { noBandOrigin } from '../expect/expected-band.ts';
import type { Forecast } from '../forecast/forecast.ts';

export interface SeriesQuestion {
  readonly fromMs: number;
  readonly toMs: number;
  /** At most so many. */
  readonly points: number;
  readonly expected?: BandSource;
}

/** To a thousandth: beyond every probe's resolution, and a third of the bytes. */
export function thousandth(value: number): number {
  return Math.round(value * 1000) / 1000;
}

export function expectedView(
  band: ExpectedBand | null,
  { fromMs, toMs, points, expected = 'both' }: SeriesQuestion,
): Omit<SeriesAnswer['expected'], 'origin'> {
  if (!band) return { messages: { origin: noBandOrigin }, points: [] };
  const lines = linesOf(band, expected);
  const first = Math.max(0, Math.ceil((fromMs - band.fromMs) / band.stepMs));
  const last = Math.min(band.p50C.length - 1, Math.floor((toMs - band.fromMs) / band.stepMs));
  const stride = Math.max(1, Math.ceil((last - first + 1) / points));
  const shown: BandPoint[] = [];
  for (let i = first; i <= last; i += stride) {
    const [p10, p50, p90] = [lines.p10C[i], lines.p50C[i], lines.p90C[i]];
    if (p10 === undefined || p50 === undefined || p90 === undefined || Number.isNaN(p50)) continue;
    shown.push({
      at: toInstant(band.fromMs + i * band.stepMs),
      p10: thousandth(p10),
      p50: thousandth(p50),
      p90: thousandth(p90),
    });
  }
  const messages = { origin: lines.origin };
  return { messages, points: shown, ...(band.sources && { ownBatches: band.sources.ownBatches }) };
}

/** Without batches of the grower's own, the model speaks for all three. */
function linesOf(band: ExpectedBand, expected: BandSource): BandLines {
  return expected === 'both' || !band.sources ? band : band.sources[expected];
}

export function forecastView(forecast: Forecast | null): SeriesAnswer['forecast'] {
  if (!forecast) return null;
  const points = forecast.p50C.map((p50, i) => ({
    at: toInstant(forecast.atMs + (i + 1) * msPerHour),
    p10: thousandth(forecast.p10C[i] ?? p50),
    p50: thousandth(p50),
    p90: thousandth(forecast.p90C[i] ?? p50),
  }));
  return { points };
}
