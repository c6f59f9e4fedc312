import type { Problem } from '../../../shared/contracts/problem.ts';

const notNumberWords = 'This is not a number. Write one, such as 12.5.';

/**
 * Where a body holds what was typed and is no number, by JSON Pointer. JSON has no word for it: it would go out as null, or be left
 * out, and the page would seem to have kept what it dropped.
 *
 * @example notNumbers({ recipe: { depthM: NaN } }) // => ['/recipe/depthM']
 */
export function notNumbers(body: unknown, pointer = ''): string[] {
  if (typeof body === 'number') return Number.isFinite(body) ? [] : [pointer];
  if (typeof body !== 'object' || body === null) return [];
  return Object.entries(body).flatMap(([key, value]) =>
    notNumbers(value, `${pointer}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`),
  );
}

export function notNumbersProblem(pointers: readonly string[]): Problem {
  return {
    type: 'about:blank',
    title: 'Not a number',
    status: 422,
    detail: 'Nothing was kept: a field that wants a number holds something else.',
    errors: pointers.map((pointer) => ({ pointer, detail: notNumberWords })),
  };
}
