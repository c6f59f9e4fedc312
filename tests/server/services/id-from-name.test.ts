import { expect, test } from 'vitest';
import { idFromName } from '../../../server/id-from-name.ts';
import { namePattern } from '../../../shared/names.ts';

const rows: [string, string][] = [
  ['Long shed bed', 'long-shed-bed'],
  ['  Säge-Schuppen 2 ', 'sage-schuppen-2'],
  ['--a--', 'a'],
  ['x'.repeat(80), 'x'.repeat(64)],
];
for (const [name, id] of rows) {
  test(`idFromName() makes "${id.slice(0, 20)}" of "${name.slice(0, 20)}"`, () => {
    expect(idFromName(name)).toBe(id);
  });
}

test('idFromName() gives a name without Latin letters an id that topics can carry', () => {
  expect(idFromName('畑')).toMatch(namePattern);
});
