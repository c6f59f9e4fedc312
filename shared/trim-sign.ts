/**
 * One sign taken off the ends of a text. A regular expression such as /-+$/ looks from every place of a long run again,
 * which takes time by the square of its length.
 */

/** @example trimSign('--a-b-', '-') // => 'a-b' */
export function trimSign(text: string, sign: string): string {
  let from = 0;
  while (text[from] === sign) from += 1;
  return trimSignEnd(text.slice(from), sign);
}

/** @example trimSignEnd('http://farm.example//', '/') // => 'http://farm.example' */
export function trimSignEnd(text: string, sign: string): string {
  let to = text.length;
  while (to > 0 && text[to - 1] === sign) to -= 1;
  return text.slice(0, to);
}
