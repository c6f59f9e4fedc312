/** How a route tells in its description that it answers with a file. */
import { z } from 'zod';

/** @param types Media types, e.g. "application/pdf". */
export function fileAnswer(description: string, ...types: readonly string[]) {
  const content = Object.fromEntries(types.map((type) => [type, { schema: z.any() }]));
  return { 200: { description, content } };
}
