import type { Problem } from '../../../shared/contracts/problem.ts';
import { pointerTo } from '../../../shared/pointer-names.ts';
import { textNow } from './text-now.ts';

/**
 * Where a body holds what was typed and is no number, by JSON Pointer. JSON has no word for it: it would go out as null, or be left
 * out, and the page would seem to have kept what it dropped.
 *
 * @example notNumbers({ recipe: { depthM: NaN } }) // => ['/recipe/depthM']
 */
export function notNumbers(body: unknown, pointer = ''): string[] {
  if (typeof body === 'number') return Number.isFinite(body) ? [] : [pointer];
  if (typeof body !== 'object' || body === null) return [];
  return Object.entries(body).flatMap(([key, value]) => notNumbers(value, pointerTo(pointer, key)));
}

export function notNumbersProblem(pointers: readonly string[]): Problem {
  return {
    type: 'about:blank',
    title: textNow('page-words.not-number'),
    status: 422,
    detail: textNow('page-words.not-number.says'),
    errors: pointers.map((pointer) => ({
      pointer,
      detail: textNow('page-words.not-number.field', { exampleNumber: 12.5 }),
    })),
  };
}
