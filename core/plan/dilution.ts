/** How much starter for how much water, and what a measured amount really is. */
import type { DilutionAsk, DilutionConvention, DilutionFigures } from '../../shared/contracts/plan.ts';
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { amount, sum } from '../../shared/sum.ts';
import { asMeasured } from './as-measured.ts';
import { liquidLFrom, partsOf, ratioOf, starterMlFor } from './dilution-sums.ts';
import { type Notebook, openNotebook, type Written } from './notebook.ts';
import { unitSlip } from './unit-slips.ts';

export interface DilutionPlan extends DilutionFigures, Written {
  readonly meaning: Message;
  readonly otherwise: DilutionFigures['otherwise'] & { readonly meaning: Message };
}

/** A ratio within this of 1 a household measure cannot tell from it [-]: our own choice, no source. */
const nearEnough = 0.1;

/** As somebody gave it. */
const exactly = (value: number) => ({ value, figures: 4 });

function meaningOf(convention: DilutionConvention, ratio: number): Message {
  return message(`plan.dilution.meaning.${convention}`, { partsRatio: exactly(ratio) });
}

export function planDilution(ask: DilutionAsk): DilutionPlan {
  const { ratio, convention, onHandMl, measuredMl } = ask;
  const book = openNotebook();
  const parts = amount('number', ratio);
  const divisor = convention === 'part-in' ? parts : sum`(${parts} + 1)`;

  const makesL = onHandMl === undefined ? undefined : liquidLFrom(onHandMl, ratio, convention);
  if (onHandMl !== undefined && makesL !== undefined) {
    const product = sum`${amount('starterMl', onHandMl)} × ${divisor}`;
    book.step(message('plan.step.on-hand-makes'), product, 'volumeL', makesL);
  }
  // The schema asks for one of the two.
  const liquidL = ask.waterL ?? makesL ?? 0;
  const liquid = amount('volumeL', liquidL);
  const starterMl = book.step(
    message('plan.step.starter'),
    sum`${liquid} ÷ ${divisor}`,
    'starterMl',
    starterMlFor(liquidL, ratio, convention),
  );
  const waterToAddL = book.step(
    message('plan.step.make-up-water'),
    sum`${liquid} − ${amount('starterMl', starterMl)}`,
    'volumeL',
    liquidL - starterMl / 1000,
  );

  if (partsOf(ratio, convention) < 50) book.remark('watch', message('plan.dilution.strong'));
  const other = convention === 'part-in' ? 'part-plus' : 'part-in';
  const meaning = meaningOf(convention, ratio);
  return {
    starterMl,
    liquidL,
    waterToAddL,
    meaning,
    otherwise: {
      convention: other,
      meaning: meaningOf(other, ratio),
      starterMl: starterMlFor(liquidL, ratio, other),
    },
    ...(measuredMl !== undefined && judgeMeasured(book, ask, liquidL, starterMl, measuredMl)),
    ...(makesL !== undefined && { onHand: sayOnHand(book, makesL, liquidL) }),
    ...book.written(
      message('plan.dilution.says', {
        starterMl: asMeasured('starterMl', starterMl),
        liquidL: exactly(liquidL),
        meaningPart: meaning,
      }),
    ),
  };
}

function sayOnHand(book: Notebook, makesL: number, liquidL: number) {
  // The quotient and the product may differ in the last bit.
  const enough = makesL >= liquidL * (1 - 1e-9);
  const says = message('plan.dilution.on-hand', { isEnough: enough, makesL: asMeasured('volumeL', makesL) });
  book.remark(enough ? 'calm' : 'act', says);
  return { makesL, enough };
}

function judgeMeasured(book: Notebook, ask: DilutionAsk, liquidL: number, starterMl: number, measuredMl: number) {
  const { ratio, convention } = ask;
  const [liquid, measured] = [amount('volumeL', liquidL), amount('starterMl', measuredMl)];
  const actualRatio = book.step(
    message('plan.step.real-ratio'),
    convention === 'part-in' ? sum`${liquid} ÷ ${measured}` : sum`(${liquid} − ${measured}) ÷ ${measured}`,
    'number',
    ratioOf(liquidL, measuredMl, convention),
  );
  const factorOff = book.step(
    message('plan.step.times-asked'),
    sum`${measured} ÷ ${amount('starterMl', starterMl)}`,
    'number',
    measuredMl / starterMl,
  );
  const rightForL = liquidLFrom(measuredMl, ratio, convention);
  const really = {
    measuredMl: exactly(measuredMl),
    liquidL: exactly(liquidL),
    realRatio: actualRatio,
    wantedRatio: exactly(ratio),
  };
  if (Math.abs(factorOff - 1) <= nearEnough) {
    book.remark('calm', message('plan.dilution.near-enough', really));
  } else if (factorOff > 1) {
    book.remark(
      factorOff > 1.5 ? 'act' : 'watch',
      paragraph(
        message('plan.dilution.too-much', { ...really, offFactor: factorOff }),
        unitSlip(factorOff),
        message('plan.dilution.if-poured', { rightForL: asMeasured('volumeL', rightForL) }),
      ),
    );
  } else {
    book.remark(
      factorOff < 1 / 1.5 ? 'act' : 'watch',
      paragraph(
        message('plan.dilution.too-little', { ...really, givenShare: factorOff }),
        unitSlip(factorOff),
        message('plan.dilution.add', { missingMl: asMeasured('starterMl', starterMl - measuredMl) }),
      ),
    );
  }
  return { actualRatio, factorOff, rightForL };
}
