/** How much dry matter a volume of a material holds. */
import type { IngredientFacts } from './ingredient-facts.ts';
import type { Notebook } from './notebook.ts';

export function dryDensityKgM3Of(
  book: Notebook,
  facts: Pick<IngredientFacts, 'name' | 'bulkDensityKgM3' | 'moistureFrac'>,
  moistureFrac: number,
  weighedKgM3: number | undefined,
): number | null {
  const { name } = facts;
  if (weighedKgM3 !== undefined) return work(book, name, weighedKgM3, moistureFrac);
  if (!facts.bulkDensityKgM3 || !facts.moistureFrac) return null;
  const storedKgM3 = book.take(`bulk density of ${name} as stored`, 'densityKgM3', facts.bulkDensityKgM3);
  return work(book, name, storedKgM3, book.take(`moisture of ${name} as stored`, 'share', facts.moistureFrac));
}

function work({ step, say }: Notebook, name: string, bulkKgM3: number, moistureFrac: number): number {
  return step(
    `dry matter in a volume of ${name}`,
    `${say('densityKgM3', bulkKgM3)} × (100 % − ${say('share', moistureFrac)})`,
    'densityKgM3',
    bulkKgM3 * (1 - moistureFrac),
  );
}
