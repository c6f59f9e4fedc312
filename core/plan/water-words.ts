/**
 * What is said about the water of one material.
 *
 * Two or three drops from a squeezed handful: community composting practice (second-hand), about 60 to 65 % (from
 * memory).
 */
import type { IngredientFacts } from './ingredient-facts.ts';
import type { Notebook } from './notebook.ts';
import type { WaterShares } from './water-shares.ts';

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export interface Wetted {
  readonly shares: WaterShares;
  readonly targetFrac: number;
  readonly moistureAfter: number;
  readonly drierKg: number | null;
}

export function sayWater(
  { tell }: Notebook,
  name: string,
  { shares, targetFrac, moistureAfter, drierKg }: Wetted,
): string {
  const { verdict, waterKg, firstPortionKg, restKg, starterKg } = shares;
  const target = tell('share', targetFrac);
  const after = tell('share', moistureAfter);
  const hasStarter = starterKg > 0;
  if (verdict === 'too-wet') {
    const cause = hasStarter ? `With the starter it comes to ${after}` : `It is at ${after} already`;
    const dry = drierKg === null ? 'something drier' : `${tell('massKg', drierKg)} of dry ${name}`;
    return `${cause}, wetter than ${target}: give no water. Mixing in ${dry} would bring it there.`;
  }
  if (verdict === 'enough') {
    return hasStarter
      ? `The starter alone brings it to ${after}: give no more water.`
      : `It is at ${after} already: give no water.`;
  }
  const first =
    firstPortionKg === 0
      ? 'Mix the starter in first'
      : `Mix in ${tell('volumeL', firstPortionKg)} of it first${hasStarter ? ', together with the starter' : ''}`;
  return (
    `${capital(name)} needs ${tell('volumeL', waterKg)} of water${hasStarter ? ' besides the starter' : ''} to reach ${target}. ` +
    `${first}, let it soak in, and squeeze a handful: it should hold together and give two or three drops. ` +
    `Then the other ${tell('volumeL', restKg)}, a little at a time.`
  );
}

export function remarkOnTarget(book: Notebook, { name, usual }: IngredientFacts, targetFrac: number): void {
  if (targetFrac >= usual.fromFrac && targetFrac <= usual.toFrac) return;
  book.remark(
    'watch',
    `${capital(name)} is usually wetted to between ${book.tell('share', usual.fromFrac)} and ${book.tell('share', usual.toFrac)} (${usual.origin}).`,
  );
}

/** @param missingKg Liquid that the target still asks for beyond `meantKg`; may be negative. */
export function sayMeant(
  { tell }: Notebook,
  { usual }: IngredientFacts,
  meantKg: number,
  moisture: number,
  missingKg: number,
): string {
  const comes = `With ${tell('volumeL', meantKg)} in all it comes to ${tell('share', moisture)}`;
  if (moisture > usual.toFrac) return `${comes}: too wet, and water cannot be taken out again.`;
  if (moisture >= usual.fromFrac) return `${comes}, which is within what is usual.`;
  const how = usual.fromFrac - moisture <= 0.05 ? 'a little dry' : 'too dry';
  return `${comes}: ${how}.${missingKg > 0 ? ` The target takes ${tell('volumeL', missingKg)} more.` : ''}`;
}
