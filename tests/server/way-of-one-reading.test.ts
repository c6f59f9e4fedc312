/** The walk in DEVELOPERS.md, from the message to the page: a file that was renamed, or a detour, shows here. */
import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

interface Step {
  readonly room: string;
  readonly files: readonly string[];
}

function stepsOf(text: string): Step[] {
  let room = '';
  return [...text.matchAll(/^\| \d+ \| (\w*) ?\| ([^|]+) \|/gm)].map(([, named = '', files = '']) => {
    room = named || room;
    return { room, files: [...files.matchAll(/`([^`]+)`/g)].map(([, path = '']) => `${room}/${path}`) };
  });
}

const steps = stepsOf(readFileSync('DEVELOPERS.md', 'utf8'));
const files = steps.flatMap((step) => step.files);

test('one reading goes through files that are there, and through none twice', () => {
  expect(steps.length).toBeGreaterThan(20);
  expect(files.filter((path) => !existsSync(path))).toEqual([]);
  expect(files).toEqual([...new Set(files)]);
});

test('one reading crosses from room to room twelve times at most', () => {
  const crossings = steps.filter(({ room }, i) => i > 0 && room !== steps[i - 1]?.room);
  expect(crossings.length).toBeLessThanOrEqual(12);
});
