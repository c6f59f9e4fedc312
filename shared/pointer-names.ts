/** The names that a JSON Pointer is made of, and back (RFC 6901 section 3). */

/** @example pointerTo('/air', 'a/b') // => "/air/a~1b" */
export const pointerTo = (above: string, name: string): string =>
  `${above}/${name.replaceAll('~', '~0').replaceAll('/', '~1')}`;

/** @example namesIn('/air/a~1b') // => ["air", "a/b"] */
export const namesIn = (pointer: string): string[] =>
  pointer
    .split('/')
    .slice(1)
    // ~1 first, so that ~01 becomes ~1 and not / (section 4).
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));
