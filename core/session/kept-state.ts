/** Which version a kept state of the judge is of: one of another is not gone on with, for the readings are there to make it anew. */
import { z } from 'zod';
import { judgeStateSchema } from '../estimate/state.ts';

/** Counted up by one wherever a field keeps its name and type and means something else: a version, no quantity. */
const meaning = 1;

/** Another schema, or another meaning, is another version by itself. */
export function versionOf(schema: z.ZodType, means: number): string {
  const text = `${means} ${JSON.stringify(z.toJSONSchema(schema))}`;
  // FNV-1a over two halves of 32 bits; constants from memory. No secret: it only has to differ where the text does.
  let [one, other] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < text.length; i += 1) {
    one = Math.imul(one ^ text.charCodeAt(i), 0x01000193);
    other = Math.imul(other ^ text.charCodeAt(i), 0x85ebca6b);
  }
  return [one, other].map((half) => (half >>> 0).toString(16).padStart(8, '0')).join('');
}

let version: string | undefined;

export function stateVersion(): string {
  version ??= versionOf(judgeStateSchema, meaning);
  return version;
}
