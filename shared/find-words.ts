/** Finds what somebody types in a text: every word of it, in any order, whatever the case and the accents. */

/** A stretch of a text, by its places there. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** @example typedWords(' Árbol  3') // => ['arbol', '3'] */
export function typedWords(typed: string): readonly string[] {
  return [...new Set(folded(typed).split(/\s+/).filter(Boolean))];
}

/** @returns True of no words at all: nothing was asked yet. */
export function holdsWords(text: string, words: readonly string[]): boolean {
  const within = folded(text);
  return words.every((word) => placeOf(within, word, 0) >= 0);
}

/** Where any of the words stand, in order, none over another. */
export function stretchesOf(text: string, words: readonly string[]): readonly Stretch[] {
  const { letters, ends } = foldedLetters(text);
  const marked = new Array<boolean>(letters.length).fill(false);
  for (const word of words) {
    for (let at = placeOf(letters, word, 0); at >= 0; at = placeOf(letters, word, at + word.length))
      marked.fill(true, at, at + word.length);
  }
  const found: { from: number; to: number }[] = [];
  marked.forEach((isMarked, at) => {
    if (!isMarked) return;
    const [from, to] = [ends[at - 1] ?? 0, ends[at] ?? text.length];
    const last = found.at(-1);
    if (last && from <= last.to) last.to = to;
    else found.push({ from, to });
  });
  return found;
}

/** Piles are numbered: a 3 is not the end of 13. */
function placeOf(within: string, word: string, from: number): number {
  let at = within.indexOf(word, from);
  if (isDigit(word[0])) while (at > 0 && isDigit(within[at - 1])) at = within.indexOf(word, at + 1);
  return at;
}

const isDigit = (letter: string | undefined) => letter !== undefined && letter >= '0' && letter <= '9';

/** Accents are taken from what stands alone, so that the same word is found however it was written. */
function folded(text: string): string {
  return text
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replaceAll('ς', 'σ')
    .replaceAll('’', "'");
}

/** With the end of what each folded letter came from. */
function foldedLetters(text: string): { letters: string; ends: readonly number[] } {
  let letters = '';
  const ends: number[] = [];
  let at = 0;
  for (const letter of text) {
    at += letter.length;
    const made = folded(letter);
    letters += made;
    for (let i = 0; i < made.length; i += 1) ends.push(at);
    // An accent that stands for itself belongs to the letter before it.
    if (made === '' && ends.length > 0) ends[ends.length - 1] = at;
  }
  return { letters, ends };
}
