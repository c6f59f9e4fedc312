import { expect, test } from 'vitest';
import { smellWords } from '../../../core/by-hand/note-words.ts';

for (const [smells, words] of [
  [['ammonia'], 'of ammonia'],
  [['ammonia', 'rotten'], 'rotten and of ammonia'],
  [['rotten', 'ammonia'], 'rotten and of ammonia'],
  [['earthy', 'sour', 'ammonia', 'rotten'], 'sour, rotten and of ammonia'],
] as const) {
  test(`smellWords() of ${smells.join(', ')}: "It smells ${words}", whatever was noted first`, () => {
    expect(smellWords([...smells])).toBe(words);
  });
}
