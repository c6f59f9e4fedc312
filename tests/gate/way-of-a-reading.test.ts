/** The way of one reading, as DEVELOPERS.md draws it: files that are there, none entered twice, and few rooms crossed. */
import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const section = readFileSync('DEVELOPERS.md', 'utf8').split('## The way of one reading\n')[1]?.split('\n- **')[0] ?? '';
const rows = [...section.matchAll(/^\| \d+ \| *(\w*) *\| (.+?) \| .+ \|$/gm)].map(([, room = '', files = '']) => ({
  room,
  files: [...files.matchAll(/`([^`]+)`/g)].map(([, file = '']) => file),
}));

/** Each step in its room; a row without one is in that of the row above. */
let room = '';
const steps = rows.map((row) => {
  room = row.room || room;
  return { room, files: row.files.map((file) => `${room}/${file}`) };
});
const files = steps.flatMap((step) => step.files);

test('each step names a file or folder that is there', () => {
  expect(steps.length).toBeGreaterThan(20);
  expect(files.length).toBeGreaterThanOrEqual(steps.length);
  expect(files.filter((file) => !existsSync(file))).toEqual([]);
});

test('no file is entered twice', () => {
  expect(files.filter((file, index) => files.indexOf(file) !== index)).toEqual([]);
});

test('rooms are crossed twelve times, from the message to the page', () => {
  const crossed = steps.filter((step, index) => step.room !== steps[index - 1]?.room);
  expect(crossed.map((step) => step.room)).toEqual([
    'ingest',
    'shared',
    'ingest',
    'server',
    'core',
    'server',
    'core',
    'shared',
    'server',
    'core',
    'server',
    'web',
  ]);
  expect(section).toContain('Rooms are crossed twelve times');
});
