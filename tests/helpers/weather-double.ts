/**
 * A stand-in for the Locationforecast 2.0 service of MET Norway, as its documentation describes it: form, headers and rules
 * from https://api.met.no/doc/ForecastJSON, /doc/TermsOfService and /doc/locationforecast/HowTO (read November 2026). The
 * first step of its answer is the one of the documentation's excerpt; the others are made up after it.
 */
import { createServer, type IncomingHttpHeaders } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface WeatherDouble {
  /** Without a query. */
  readonly url: string;
  /** As an owner allows it: host:port. */
  readonly address: string;
  readonly asked: { readonly query: string; readonly headers: IncomingHttpHeaders }[];
  /** What it answers next instead of a forecast. */
  answer: { status: number; body?: string; headers?: Record<string, string> } | undefined;
  updatedMs: number;
  temperatureC: number;
  close(): Promise<void>;
}

const details = {
  air_pressure_at_sea_level: 1020.5,
  relative_humidity: 48.6,
  wind_from_direction: 151.8,
  wind_speed: 2.5,
};

/** Hourly for two days, then six-hourly up to nine. */
export function forecastBody(updatedMs: number, temperatureC: number): object {
  const firstMs = Math.floor(updatedMs / 3_600_000) * 3_600_000;
  const hours = [...Array.from({ length: 48 }, (_, hour) => hour), ...Array.from({ length: 28 }, (_, i) => 48 + 6 * i)];
  return {
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [10, 60.1, 267] },
    properties: {
      meta: {
        updated_at: new Date(updatedMs).toISOString().replace('.000', ''),
        units: {
          air_pressure_at_sea_level: 'hPa',
          air_temperature: 'celsius',
          precipitation_amount: 'mm',
          relative_humidity: '%',
          wind_from_direction: 'degrees',
          wind_speed: 'm/s',
        },
      },
      timeseries: hours.map((hour) => ({
        time: new Date(firstMs + hour * 3_600_000).toISOString().replace('.000', ''),
        data: {
          instant: { details: { ...details, air_temperature: temperatureC } },
          ...(hour < 48 && {
            next_1_hours: { summary: { symbol_code: 'partlycloudy_day' }, details: { precipitation_amount: 0 } },
          }),
        },
      })),
    },
  };
}

export async function openWeatherDouble(updatedMs: number): Promise<WeatherDouble> {
  const asked: WeatherDouble['asked'] = [];
  const server = createServer((request, reply) => {
    const { url = '', headers } = request;
    asked.push({ query: url.split('?')[1] ?? '', headers });
    const modified = new Date(double.updatedMs).toUTCString();
    const usual = {
      'Content-Type': 'application/json',
      'Last-Modified': modified,
      Expires: new Date(double.updatedMs + 31 * 60_000).toUTCString(),
    };
    const { answer } = double;
    if (answer) reply.writeHead(answer.status, { ...usual, ...answer.headers }).end(answer.body ?? '');
    // Its rules: a name that says whom to write to, and no more than four decimals.
    else if (!/\S+@\S+|https?:/.test(headers['user-agent'] ?? '') || /\.\d{5}/.test(url)) reply.writeHead(403).end();
    else if (headers['if-modified-since'] === modified) reply.writeHead(304, usual).end();
    else reply.writeHead(200, usual).end(JSON.stringify(forecastBody(double.updatedMs, double.temperatureC)));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const double: WeatherDouble = {
    url: `http://127.0.0.1:${port}/weatherapi/locationforecast/2.0/compact`,
    address: `127.0.0.1:${port}`,
    asked,
    answer: undefined,
    updatedMs,
    temperatureC: 20.7,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
  return double;
}
