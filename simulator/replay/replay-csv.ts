/**
 * Plays a measured series as if probes were sending it now. It never invents a value: an empty cell is a probe that
 * said nothing.
 */
import { readFileSync } from 'node:fs';
import { ConfigError } from '../../shared/errors.ts';
import type { Quantity } from '../../shared/quantity.ts';
import { fahrenheitToCelsius } from '../../shared/units.ts';
import type { FarmMessage } from '../farm/play-farm.ts';
import type { Values } from '../probes/probe.ts';
import { fieldsOf, instantOf } from './csv.ts';

/** One column and whose it is. */
export interface Take {
  readonly column: string;
  readonly probe: string;
  readonly quantity: Quantity;
}

export interface ReplayOptions {
  readonly path: string;
  readonly timeColumn: string;
  readonly takes: readonly Take[];
  readonly site: string;
  /** Instant onto which the first row is put [epoch ms]. */
  readonly startMs: number;
  readonly fahrenheit?: boolean | undefined;
}

/** @throws {ConfigError} If the file cannot be read, a column is missing or a time cannot be read. */
export function readReplay(options: ReplayOptions): FarmMessage[] {
  const { path, timeColumn, takes, site, startMs } = options;
  const lines = linesOf(path);
  const header = fieldsOf(lines[0] ?? '').map((name) => name.trim());
  const placeOf = (column: string) => {
    const place = header.indexOf(column);
    if (place < 0)
      throw new ConfigError(
        `Cannot replay ${path} as it has no column "${column}": its columns are ${header.join(', ')}`,
      );
    return place;
  };
  const timePlace = placeOf(timeColumn);
  const places = takes.map((take) => ({ ...take, place: placeOf(take.column) }));
  const messages: FarmMessage[] = [];
  let firstMs = Number.NaN;
  lines.slice(1).forEach((line, i) => {
    if (line.trim() === '') return;
    const fields = fieldsOf(line);
    const fileMs = instantOf(fields[timePlace] ?? '');
    if (Number.isNaN(fileMs)) {
      throw new ConfigError(
        `Cannot replay ${path} as line ${i + 2} has no time in "${timeColumn}": current value is "${fields[timePlace] ?? ''}"`,
      );
    }
    if (Number.isNaN(firstMs)) firstMs = fileMs;
    const atMs = Math.round(startMs + fileMs - firstMs);
    for (const [probe, values] of valuesByProbe(places, fields, options.fahrenheit ?? false)) {
      messages.push({ kind: 'reading', site, probe, atMs, sendAtMs: atMs, values });
    }
  });
  return messages.sort((a, b) => a.sendAtMs - b.sendAtMs);
}

function valuesByProbe(
  places: readonly (Take & { place: number })[],
  fields: readonly string[],
  fahrenheit: boolean,
): Map<string, Values> {
  const found = new Map<string, Values>();
  for (const { place, probe, quantity } of places) {
    const text = (fields[place] ?? '').trim();
    const number = Number(text);
    if (text === '' || !Number.isFinite(number)) continue;
    const value = fahrenheit && quantity === 'temperature' ? Number(fahrenheitToCelsius(number).toFixed(3)) : number;
    found.set(probe, { ...found.get(probe), [quantity]: value });
  }
  return found;
}

function linesOf(path: string): string[] {
  try {
    return readFileSync(path, 'utf8')
      .replace(/^\uFEFF/, '')
      .split(/\r?\n/);
  } catch (cause) {
    throw new ConfigError(`Cannot read ${path}: ${cause instanceof Error ? cause.message : cause}`, { cause });
  }
}
