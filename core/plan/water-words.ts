/** What is said about the water of one material. Of the squeeze see shared/squeeze.ts. */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { asMeasured } from './as-measured.ts';
import type { Notebook } from './notebook.ts';
import type { IngredientFacts } from './plan-facts.ts';
import type { WaterShares } from './water-shares.ts';

export interface Wetted {
  /** A squeeze of soil is judged otherwise than one of bran. */
  readonly isSoil: boolean;
  readonly shares: WaterShares;
  readonly targetFrac: number;
  readonly moistureAfter: number;
  readonly drierKg: number | null;
}

export function sayWater(name: Message, { isSoil, shares, targetFrac, moistureAfter, drierKg }: Wetted): Message {
  const { verdict, waterKg, firstPortionKg, restKg, starterKg } = shares;
  const hasStarter = starterKg > 0;
  switch (verdict) {
    case 'too-wet':
      return paragraph(
        message('plan.water.too-wet', { afterShare: moistureAfter, targetShare: targetFrac, hasStarter }),
        drierKg === null
          ? message('plan.water.dry-with-something')
          : message('plan.water.dry-with', { drierKg, materialPart: name }),
      );
    case 'enough':
      return message('plan.water.enough', { afterShare: moistureAfter, hasStarter });
    case 'add':
      return paragraph(
        message('plan.water.needs', {
          materialCapitalPart: name,
          waterL: asMeasured('volumeL', waterKg),
          targetShare: targetFrac,
          hasStarter,
        }),
        firstPortionKg === 0
          ? message('plan.water.starter-first', { isSoil })
          : message('plan.water.portion-first', { firstL: asMeasured('volumeL', firstPortionKg), hasStarter, isSoil }),
        message('plan.water.the-rest', { restL: asMeasured('volumeL', restKg) }),
      );
  }
}

export function remarkOnTarget(book: Notebook, { name, usual }: IngredientFacts, targetFrac: number): void {
  const { fromFrac, toFrac, origin } = usual;
  if (targetFrac >= fromFrac && targetFrac <= toFrac) return;
  book.remark(
    'watch',
    message('plan.water.usual', {
      materialCapitalPart: name,
      fromShare: fromFrac,
      toShare: toFrac,
      originPart: origin,
    }),
  );
}

/** Below what is usual by no more than this is a little dry, wet basis [-]: our own choice, no source. */
const littleFrac = 0.05;

/** @param missingKg Liquid that the target still asks for beyond `meantKg`; may be negative. */
export function sayMeant(
  { usual }: IngredientFacts,
  meantKg: number,
  moistureFrac: number,
  missingKg: number,
): Message {
  const comesTo = { meantL: meantKg, moistureShare: moistureFrac };
  if (moistureFrac > usual.toFrac) return message('plan.water.meant-too-wet', comesTo);
  if (moistureFrac >= usual.fromFrac) return message('plan.water.meant-usual', comesTo);
  return paragraph(
    message('plan.water.meant-dry', { ...comesTo, isLittle: usual.fromFrac - moistureFrac <= littleFrac }),
    missingKg > 0 ? message('plan.water.meant-missing', { missingL: asMeasured('volumeL', missingKg) }) : null,
  );
}
