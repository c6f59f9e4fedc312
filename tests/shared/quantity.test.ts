/** What the declarations of quantities must hold beyond their types. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { QuantityFacts } from '../../shared/quantities/quantity-facts.ts';
import { quantities, quantityFacts } from '../../shared/quantity.ts';

const declared: readonly (readonly [string, QuantityFacts])[] = quantities.map((one) => [one, quantityFacts[one]]);

describe.each(declared)('%s', (name, { key, min, max, from, alsoCalled }) => {
  test('is named in ingest/README.md, where it says what a probe may send', () =>
    expect(readFileSync('ingest/README.md', 'utf8')).toMatch(new RegExp(`^Names are .*\`${name}\``, 'm')));
  test('may come as it is kept, and first as that', () => expect(Object.values(from)[0]?.(12.5)).toBe(12.5));
  test('has bounds, the lower one below', () => expect(min).toBeLessThan(max));
  test('is called by plain words in headings, none of which another quantity has', () => {
    const others = declared.filter(([other]) => other !== name);
    const taken = others.flatMap(([other, facts]) => [other, facts.key.toLowerCase(), ...facts.alsoCalled]);
    for (const word of [name, key.toLowerCase(), ...alsoCalled]) {
      expect(word).toMatch(/^[a-z0-9]+( [a-z0-9]+)*$/);
      expect(taken).not.toContain(word);
    }
  });
});
