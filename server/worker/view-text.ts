/**
 * server/worker/view-text.ts: an expected curve as text in the journal, and back.
 *
 * JSON knows no NaN, which stands where a source says nothing; the ensemble's members are the watcher's own and left out.
 */
import type { BandLines, ExpectedBand } from '../../core/curve/band.ts';
import type { Assessment } from '../../core/judge/assessment.ts';
import type { Judged } from '../watch/watched-pile.ts';

export function bandText(band: ExpectedBand | null): string {
  if (!band) return 'null';
  const { members: _, ...told } = band;
  // Writes NaN as null; single precision has more digits than it knows.
  return JSON.stringify(told, (_, value) =>
    value instanceof Float32Array ? Array.from(value, (tempC) => Math.round(tempC * 1_000) / 1_000) : value,
  );
}

export function judgedFrom(view: { told: string; course: string } | undefined): Judged {
  if (!view) return { assessment: null, band: null };
  const band = JSON.parse(view.course) as ExpectedBand | null;
  return {
    assessment: JSON.parse(view.told) as Assessment | null,
    band: band && {
      ...band,
      ...linesFrom(band),
      ...(band.sources && {
        sources: {
          ...band.sources,
          model: { ...band.sources.model, ...linesFrom(band.sources.model) },
          own: { ...band.sources.own, ...linesFrom(band.sources.own) },
        },
      }),
    },
  };
}

function linesFrom({ p10C, p50C, p90C }: Pick<BandLines, 'p10C' | 'p50C' | 'p90C'>) {
  const numbers = (values: ArrayLike<number | null>) => Array.from(values, (value) => value ?? Number.NaN);
  return { p10C: numbers(p10C), p50C: numbers(p50C), p90C: numbers(p90C) };
}
