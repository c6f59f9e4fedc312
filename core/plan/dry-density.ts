/** How much dry matter a volume of a material holds. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Fact } from '../../shared/profiles/materials.ts';
import { amount, sum } from '../../shared/sum.ts';
import type { Notebook } from './notebook.ts';
import type { IngredientFacts } from './plan-facts.ts';

export function dryDensityKgM3Of(
  book: Notebook,
  { name, stored }: Pick<IngredientFacts, 'name' | 'stored'>,
  moistureFrac: number,
  weighedKgM3: number | undefined,
): number | null {
  if (weighedKgM3 !== undefined) return work(book, name, weighedKgM3, moistureFrac);
  if (!stored) return null;
  const bulkDensity = message('plan.taken.bulk-density', { materialPart: name });
  const storedKgM3 = book.take(bulkDensity, 'densityKgM3', stored.bulkDensityKgM3);
  return work(book, name, storedKgM3, takeMoisture(book, name, stored.moistureFrac));
}

export function takeMoisture(book: Notebook, name: Message, moistureFrac: Fact): number {
  return book.take(message('plan.taken.moisture', { materialPart: name }), 'share', moistureFrac);
}

function work({ step }: Notebook, name: Message, bulkKgM3: number, moistureFrac: number): number {
  return step(
    message('plan.step.dry-density', { materialPart: name }),
    sum`${amount('densityKgM3', bulkKgM3)} × (100 % − ${amount('share', moistureFrac)})`,
    'densityKgM3',
    bulkKgM3 * (1 - moistureFrac),
  );
}
