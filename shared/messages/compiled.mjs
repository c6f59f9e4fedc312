/** Texts of pages as short as they may be, so that a page needs no parser: see `page-text.ts`, which writes them. */
import { parse, TYPE } from '@formatjs/icu-messageformat-parser';

/** Texts of pages, which are not found by core and not sent: they may hold `<tags>`, for links and the like. */
export const isPage = (name) => name.startsWith('page-');
export const parsed = (code, text) => parse(text, { ignoreTag: !isPage(code) });

/**
 * @returns Text, or a list of texts, `["name"]` for an argument, `["#"]`, `["name", { choice: … }, 0 | 1]` for a choice, 1 by number, and
 * `["<", "tag", …]`.
 */
export function compiled(code, text) {
  const piecesOf = (nodes) => {
    const pieces = nodes.map((node) => {
      if (node.type === TYPE.literal) return node.value;
      if (node.type === TYPE.argument) return [node.value];
      if (node.type === TYPE.tag) return ['<', node.value, piecesOf(node.children)];
      if (node.type !== TYPE.plural && node.type !== TYPE.select) return ['#'];
      const options = Object.entries(node.options).map(([key, { value }]) => [key, piecesOf(value)]);
      return [node.value, Object.fromEntries(options), node.type === TYPE.plural ? 1 : 0];
    });
    if (pieces.length === 0) return '';
    return pieces.length === 1 && typeof pieces[0] === 'string' ? pieces[0] : pieces;
  };
  return piecesOf(parsed(code, text));
}
