/**
 * The real litter heap of Aarhus 2023 (tests/data/litter-heap-2023-hourly.csv): T12 core, T11 base, T13 top, air beside it.
 * It is no bran, so only the shape of what is said is tested, not its timing against the bran stage.
 */
import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import type { Position } from '../../../shared/names.ts';
import { msPerHour } from '../../../shared/units.ts';
import { Played, setupOf } from '../helpers.ts';

interface Row {
  readonly atMs: number;
  readonly tempsC: [Position, number | null][];
}

function readRows(): Row[] {
  const text = readFileSync(new URL('../../data/litter-heap-2023-hourly.csv', import.meta.url), 'utf8');
  return text
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const cells = line.split(',');
      const value = (index: number): number | null => (cells[index] ? Number(cells[index]) : null);
      return {
        atMs: Date.parse(`${cells[0]}Z`),
        tempsC: [
          ['base', value(3)],
          ['core', value(4)],
          ['top', value(5)],
          ['air', value(6)],
        ],
      };
    });
}

const rows = readRows();
const first = rows[0]?.atMs ?? 0;
const sentences: { hour: number; condition: string; tone: string }[] = [];
let played: Played;

beforeAll(() => {
  const setup = setupOf('bran', {
    startedAtMs: first,
    recipe: { material: 'other', depthM: 1.8, moistureFrac: 0.488, cover: 'open' },
  });
  const air = rows.flatMap(({ atMs, tempsC }) => {
    const tempC = tempsC.find(([position]) => position === 'air')?.[1];
    return tempC == null ? [] : [{ atMs, tempC }];
  });
  played = new Played(setup, expectedBand(setup, air, first + 1060 * msPerHour));
  for (const { atMs, tempsC } of rows) {
    for (const [position, tempC] of tempsC) if (tempC !== null) played.feed(position, tempC, atMs);
    played.lookUntil(atMs + 50 * 60_000);
    const { condition, tone } = played.say();
    sentences.push({ hour: (atMs - first) / msPerHour, condition, tone });
  }
});

test('the litter heap warms, then works', () => {
  expect(sentences.find(({ condition }) => condition.startsWith('It is warming'))?.hour).toBeLessThan(24);
  expect(sentences.some(({ condition }) => condition.startsWith('It is working'))).toBe(true);
});

test('the litter heap is warned of as it comes within a probe’s half degree of 50 °C, and not before', () => {
  // T12 passes 49.5 °C for good from 110 h after the first row, and 50 °C between 116 and 120 h.
  const raised = played.events.find(({ kind, arrow }) => kind === 'overheating' && arrow === 'raised');
  expect(raised?.hour).toBeGreaterThan(109);
  expect(raised?.hour).toBeLessThan(113);
});

test('the litter heap cools without a stall, and its cool base and sunny top raise nothing of their own', () => {
  const kinds = new Set(played.raised().filter((raised) => !raised.startsWith('overheating')));
  expect([...kinds]).toEqual(['probe-silent/core']);
});

test('the litter heap’s core probe is called silent within four hours of its death, and the pile is never called fine again', () => {
  const diedH = rows.findIndex(({ tempsC }) =>
    tempsC.some(([position, tempC]) => position === 'core' && tempC === null),
  );
  const silent = played.events.find(({ kind }) => kind === 'probe-silent');
  expect([silent?.position, silent?.arrow]).toEqual(['core', 'raised']);
  expect((silent?.hour ?? 0) - diedH).toBeGreaterThan(1);
  expect((silent?.hour ?? 0) - diedH).toBeLessThanOrEqual(4);
  const after = sentences.filter(({ hour }) => hour > diedH + 4);
  expect(after.length).toBeGreaterThan(400);
  for (const { condition, tone } of after) {
    expect(condition).toContain('core probe has been silent');
    expect(tone).toBe('act');
  }
  for (const kind of ['overheating', 'drying', 'stalling', 'self-heating'] as const) {
    expect(played.finding(kind).evidence).toBe('missing');
  }
});
