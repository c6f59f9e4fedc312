/** Measured weather from a CSV file. */
import { readFileSync } from 'node:fs';
import { ConfigError } from '../../shared/errors.ts';
import type { Air, Weather } from '../model/air.ts';
import { type AirRow, measuredAir } from '../model/measured-air.ts';
import { fieldsOf, instantOf } from './csv.ts';

const columns: Record<string, keyof Air> = {
  air_temp_C: 'tempC',
  rel_humidity_pct: 'rhPct',
  wind_m_s: 'windMS',
  sun_W_m2: 'sunWM2',
  rain_mm_h: 'rainMmH',
  cloud_frac: 'cloudFrac',
};

/** @throws {ConfigError} If the file cannot be read or has no usable rows. */
export function readAir(path: string, startMs: number): Weather {
  let lines: string[];
  try {
    lines = readFileSync(path, 'utf8').split(/\r?\n/);
  } catch (cause) {
    throw new ConfigError(`Cannot read air file ${path}: ${cause instanceof Error ? cause.message : cause}`, { cause });
  }
  const header = fieldsOf(lines[0] ?? '').map((name) => name.trim());
  const timePlace = header.indexOf('time');
  if (timePlace < 0) throw new ConfigError(`Cannot use air file ${path} as it must have a column "time"`);
  let firstMs = Number.NaN;
  const rows = lines.slice(1).flatMap((line): AirRow[] => {
    const fields = fieldsOf(line);
    const fileMs = instantOf(fields[timePlace] ?? '');
    if (Number.isNaN(fileMs)) return [];
    if (Number.isNaN(firstMs)) firstMs = fileMs;
    const air: Record<string, number> = {};
    header.forEach((name, place) => {
      const key = columns[name];
      const text = (fields[place] ?? '').trim();
      if (key !== undefined && text !== '' && Number.isFinite(Number(text))) air[key] = Number(text);
    });
    return [{ atMs: startMs + fileMs - firstMs, ...air }];
  });
  if (rows.length === 0) throw new ConfigError(`Cannot use air file ${path} as it has no row with a time`);
  return measuredAir(rows);
}
