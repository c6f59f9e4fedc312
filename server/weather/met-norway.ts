/**
 * What the Locationforecast 2.0 service of MET Norway answers, read as far as it is of use here.
 *
 * Form: https://api.met.no/doc/ForecastJSON; its steps are hourly for some days, then six-hourly.
 */
import { z } from 'zod';
import { airTemperatureSchema, type IssuedAirAhead, mostAirPoints } from '../../shared/contracts/air-ahead.ts';
import { instantInputSchema } from '../../shared/contracts/time.ts';
import { weatherSource } from '../../shared/weather-source.ts';

const answerSchema = z.object({
  properties: z.object({
    meta: z.object({
      updated_at: instantInputSchema,
      units: z.object({ air_temperature: z.literal('celsius'), relative_humidity: z.literal('%') }),
    }),
    timeseries: z
      .array(
        z.object({
          time: instantInputSchema,
          data: z.object({
            instant: z.object({
              details: z.object({
                air_temperature: airTemperatureSchema,
                relative_humidity: z.number().min(0).max(100.5).optional(),
              }),
            }),
          }),
        }),
      )
      .min(2)
      .max(mostAirPoints),
  }),
});

/** @returns undefined for what is not of this form. */
export function readMetNorway(text: string): IssuedAirAhead | undefined {
  let body: unknown;
  try {
    body = JSON.parse(text);
  } catch {
    return undefined;
  }
  const read = answerSchema.safeParse(body);
  if (!read.success) return undefined;
  const { meta, timeseries } = read.data.properties;
  const points = timeseries.map(({ time, data: { instant } }) => ({
    at: time,
    temperatureC: instant.details.air_temperature,
    humidityPct: instant.details.relative_humidity && Math.min(100, instant.details.relative_humidity),
  }));
  return { issuedMs: meta.updated_at, source: weatherSource, points };
}

/** Its rules want a name and whom to write to, and no more than four decimals. */
export function metNorwayAsk(
  url: string,
  { latitude, longitude }: { readonly latitude: number; readonly longitude: number },
  contact: string,
  version: string,
  lastModified: string | null,
) {
  return {
    method: 'GET' as const,
    url: `${url}?lat=${latitude}&lon=${longitude}`,
    headers: {
      Accept: 'application/json',
      'User-Agent': `Branhearth/${version} ${contact}`,
      // Word for word as it was given: its rules say so.
      ...(lastModified !== null && { 'If-Modified-Since': lastModified }),
    },
  };
}
