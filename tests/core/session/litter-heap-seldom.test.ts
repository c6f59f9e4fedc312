/**
 * The real litter heap of Aarhus 2023 (tests/data/litter-heap-2023-hourly.csv) as a grower would have read it: every one, three, six
 * or twelve hours, on a scale of half a degree or of whole degrees Fahrenheit.
 */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import type { Position } from '../../../shared/names.ts';
import { msPerHour } from '../../../shared/units.ts';
import { shown } from '../../bench/detect/rhythms.ts';
import { Played, setupOf } from '../helpers.ts';

interface Row {
  readonly atMs: number;
  readonly tempsC: readonly (readonly [Position, number])[];
}

const columns: readonly (readonly [Position, number])[] = [
  ['base', 3],
  ['core', 4],
  ['top', 5],
  ['air', 6],
];

const rows: Row[] = readFileSync(new URL('../../data/litter-heap-2023-hourly.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const cells = line.split(',');
    const tempsC = columns.flatMap(([position, index]) =>
      cells[index] ? [[position, Number(cells[index])] as const] : [],
    );
    return { atMs: Date.parse(`${cells[0]}Z`), tempsC };
  });
const first = rows[0]?.atMs ?? 0;
/** Its core probe truly died then. */
const died = rows.findIndex(({ tempsC }) => !tempsC.some(([position]) => position === 'core'));
const setup = setupOf('bran', {
  startedAtMs: first,
  recipe: { material: 'other', depthM: 1.8, moistureFrac: 0.488, cover: 'open' },
});
const air = rows.flatMap(({ atMs, tempsC }) =>
  tempsC.filter(([position]) => position === 'air').map(([, tempC]) => ({ atMs, tempC })),
);
const hours = 1060;
let band: ReturnType<typeof expectedBand>;
beforeAll(() => {
  band = expectedBand(setup, air, first + hours * msPerHour);
});

interface AsRead {
  readonly played: Played;
  /** First reading of the core over its limit [h], and what was said before it. */
  readonly overAtH: number;
  readonly saidBefore: readonly string[];
}

function read(everyH: number, step: '0.5 °C' | '1 °F', fromH: number): AsRead {
  const played = new Played(setup, band);
  const saidBefore: string[] = [];
  let overAtH = Number.NaN;
  for (const { atMs, tempsC } of rows.filter((_, i) => i < died && i % everyH === fromH)) {
    for (let lookMs = played.lookedMs; lookMs < atMs; lookMs = played.lookedMs) {
      played.lookUntil(Math.min(lookMs + msPerHour, atMs - 1));
      if (Number.isNaN(overAtH)) saidBefore.push(played.say().condition);
    }
    for (const [position, tempC] of tempsC) {
      const valueC = shown(tempC, step);
      played.feed(position, valueC, atMs);
      if (position === 'core' && valueC > setup.limits.actC && Number.isNaN(overAtH))
        overAtH = (atMs - first) / msPerHour;
    }
    played.evaluate(atMs);
  }
  return { played, overAtH, saidBefore };
}

const cases = [1, 3, 6, 12].flatMap((everyH) =>
  (['0.5 °C', '1 °F'] as const).flatMap((step) =>
    [...new Set([0, Math.floor(everyH / 2)])].map((fromH) => [everyH, step, fromH] as const),
  ),
);

describe.each(cases)('a litter heap read every %i h in steps of %s from hour %i on', (everyH, step, fromH) => {
  let heap: AsRead;
  beforeAll(() => {
    heap = read(everyH, step, fromH);
  });

  const raisedAt = (kind: string): number[] =>
    heap.played.events
      .filter((event) => event.kind === kind && event.arrow.startsWith('raised'))
      .map(({ hour }) => hour);

  test('is called too hot at the first reading over its limit', () => {
    expect(heap.overAtH).toBeGreaterThan(0);
    expect(Math.min(...raisedAt('overheating'), ...raisedAt('self-heating'))).toBeLessThanOrEqual(heap.overAtH);
  });

  test.each(['probe-stuck', 'probe-silent', 'probe-out', 'stalling'])('has no %s raised of it', (kind) => {
    expect(raisedAt(kind)).toEqual([]);
  });

  test('is not said to have eased before it is hot', () => {
    expect(heap.saidBefore).not.toEqual([]);
    expect(heap.saidBefore.filter((condition) => condition.includes('eased'))).toEqual([]);
  });
});
