import { expect, test } from 'vitest';
import { holdsWords, stretchesOf, typedWords } from '../../shared/find-words.ts';

const holds = (text: string, typed: string) => holdsWords(text, typedWords(typed));

test.each([
  ['Cart shed, north', 'CART'],
  ['Cart shed, north', 'north cart'],
  ['Árvore à beira', 'arvore a'],
  ['Arvore', 'árvore'],
  ['Montón de salvado', 'monton'],
  // The same letter as one sign and as two: Unicode's canonical equivalence (UAX 15, figure 3).
  ['caf\u00e9', 'cafe\u0301'],
  ['cafe\u0301', 'CAF\u00c9'],
  ['Bed 3', 'bed 3'],
  ['Bed 30', 'bed 3'],
  ['the farm’s beds', "farm's"],
  ['กองรำ', 'รำ'],
  ['anything', '  '],
])('%s is found by "%s"', (text, typed) => {
  expect(holds(text, typed)).toBe(true);
});

test.each([
  ['Bed 13', 'bed 3'],
  ['Bed 3', 'bed 30'],
  ['Cart shed', 'cart barn'],
  ['รา', 'รำ'],
])('%s is not found by "%s"', (text, typed) => {
  expect(holds(text, typed)).toBe(false);
});

test('what was found is given as it stands in the text, also where letters have accents of their own or are of two signs', () => {
  const marked = (text: string, typed: string) =>
    stretchesOf(text, typedWords(typed)).map(({ from, to }) => text.slice(from, to));
  expect(marked('Cart shed, carted', 'CART')).toEqual(['Cart', 'cart']);
  expect(marked('La pila más alta', 'mas')).toEqual(['más']);
  expect(marked('cafe\u0301 au lait', 'cafe')).toEqual(['cafe\u0301']);
  expect(marked('𝒳 bed 13 and bed 3', 'bed 3')).toEqual(['bed', 'bed', '3']);
  expect(marked('abab', 'ab ba')).toEqual(['abab']);
  expect(marked('nothing', 'zebra')).toEqual([]);
});
