/**
 * An expected band as text in the journal, and back.
 *
 * JSON knows no NaN, which stands where a source says nothing; the ensemble's members are the watcher's own and left
 * out.
 */
import { z } from 'zod';
import type { BandLines, ExpectedBand } from '../../core/expect/band.ts';
import type { Assessment } from '../../core/session/assessment.ts';
import { keptMessageSchema, verbatim } from '../../shared/messages/message.ts';
import type { Judged } from '../pile/watched-pile.ts';

/** Plain data: JSON writes NaN as null; single precision has more digits than it knows. */
export function bandData(band: ExpectedBand | null): unknown {
  if (!band) return null;
  const { members: _, ...lines } = band;
  return plain(lines);
}

function plain(value: unknown): unknown {
  if (value instanceof Float32Array) return Array.from(value, (tempC) => Math.round(tempC * 1_000) / 1_000);
  if (Array.isArray(value) || value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, plain(part)]));
}

/** Whole, as their seal was: what comes back is what a watcher wrote. */
const assessmentSchema = z
  .custom<Assessment>((assessment) => typeof assessment === 'object' && assessment !== null)
  .nullable();
const bandSchema = z.custom<ExpectedBand>((band) => typeof band === 'object' && band !== null).nullable();

export function judgedFrom(view: { assessment: unknown; band: unknown } | undefined): Judged {
  if (!view) return { assessment: null, band: null };
  const band = bandSchema.catch(null).parse(view.band);
  return {
    assessment: assessmentSchema.catch(null).parse(view.assessment),
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

/** Views of before bands had messages say where they come from in words. */
const originSchema = keptMessageSchema.catch(verbatim(''));

function linesFrom({ p10C, p50C, p90C, origin }: BandLines) {
  const numbers = (values: ArrayLike<number | null>) => Array.from(values, (value) => value ?? Number.NaN);
  return { p10C: numbers(p10C), p50C: numbers(p50C), p90C: numbers(p90C), origin: originSchema.parse(origin) };
}
