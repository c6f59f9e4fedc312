/** How far a translation has come, as the file beside its catalogues says, and who is given it. English is written here and has none. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

/** Lie in the folder of the language, beside its catalogues. */
const standingFile = 'standing.json';
const comparedFile = 'compared.json';

export const isTopicFile = (name) => name.endsWith('.json') && ![standingFile, comparedFile].includes(name);

const standingSchema = z.discriminatedUnion('standing', [
  /** Being translated: checked, kept, and given to nobody. */
  z.strictObject({ standing: z.literal('draft') }),
  /** Whole, and no grower has read it yet: pages say so. */
  z.strictObject({ standing: z.literal('machine') }),
  /** Whole, and read by somebody who grows, whom it names. */
  z.strictObject({ standing: z.literal('read'), by: z.string().min(1), on: z.iso.date() }),
]);

/**
 * @param folder Of the language.
 * @param fault Takes what is wrong with the file, which then stands for a draft.
 * @returns "draft", "machine" or "read".
 */
export function standingOf(folder, fault) {
  try {
    return standingSchema.parse(JSON.parse(readFileSync(join(folder, standingFile), 'utf8'))).standing;
  } catch (error) {
    const why = error instanceof z.ZodError ? z.prettifyError(error) : error.message;
    fault(`${standingFile} is missing or not as it should be (shared/messages/README.md): ${why}`);
    return 'draft';
  }
}
