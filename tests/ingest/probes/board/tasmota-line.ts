/** A command line of Tasmota as its documentation has it (“Commands”, version 15): `Backlog`, at most 30 commands parted by semicolons. */
import { expect } from 'vitest';

/** @returns Each command with its value. */
export function readTasmotaLine(line: string): Record<string, string> {
  expect(line.startsWith('Backlog ')).toBe(true);
  const commands = line
    .slice('Backlog '.length)
    .split(';')
    .map((command) => command.trim().split(' '));
  expect(commands.length).toBeLessThanOrEqual(30);
  expect(commands.filter(({ length }) => length !== 2)).toEqual([]);
  return Object.fromEntries(commands) as Record<string, string>;
}

/** What such a board then says of its chip (“DS18x20”). */
export const sensorMessage = (temperatureC: number) =>
  JSON.stringify({
    Time: '2031-04-05T06:07:08',
    DS18B20: { Id: '0316A279BEFF', Temperature: temperatureC },
    TempUnit: 'C',
  });
