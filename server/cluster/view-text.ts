/**
 * An expected curve as text in the journal, and back.
 *
 * JSON knows no NaN, which stands where a source says nothing; the ensemble's members are the watcher's own and left
 * out.
 */
import { z } from 'zod';
import type { BandLines, ExpectedBand } from '../../core/expect/band.ts';
import type { Assessment } from '../../core/session/assessment.ts';
import { keptMessageSchema, verbatim } from '../../shared/messages/message.ts';
import type { Judged } from '../monitor/pile/watched-pile.ts';

/** Plain data: JSON writes NaN as null; single precision has more digits than it knows. */
export function bandData(band: ExpectedBand | null): unknown {
  if (!band) return null;
  const { members: _, ...told } = band;
  return plain(told);
}

function plain(value: unknown): unknown {
  if (value instanceof Float32Array) return Array.from(value, (tempC) => Math.round(tempC * 1_000) / 1_000);
  if (Array.isArray(value) || value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, plain(part)]));
}

/** Whole, as their seal was: what comes back is what a watcher wrote. */
const toldSchema = z.custom<Assessment>((told) => typeof told === 'object' && told !== null).nullable();
const courseSchema = z.custom<ExpectedBand>((course) => typeof course === 'object' && course !== null).nullable();

export function judgedFrom(view: { told: unknown; course: unknown } | undefined): Judged {
  if (!view) return { assessment: null, band: null };
  const band = courseSchema.catch(null).parse(view.course);
  return {
    assessment: toldSchema.catch(null).parse(view.told),
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
