import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { oldNode } from '../../../server/app/old-node.ts';

test.each([
  ['v18.20.4', true],
  ['v20.18.9', true],
  ['v20.19.0', false],
  ['v22.0.0', false],
  ['v26.12.1', false],
])('oldNode() of %s: too old is %s', (version, isOld) => {
  expect(oldNode(version) !== undefined).toBe(isOld);
});

test('oldNode() names what package.json names', () => {
  const { engines } = JSON.parse(readFileSync('package.json', 'utf8')) as { engines: { node: string } };
  expect(oldNode('v1.0.0')).toContain(`needs Node.js ${engines.node.replace('>=', '')} or later`);
});
