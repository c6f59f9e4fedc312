/** How much starter for how much water, and what a measured amount really is. */
import type { DilutionAnswer, DilutionAsk, DilutionConvention } from '../../shared/contracts/plan.ts';
import { figure } from '../../shared/measure.ts';
import { liquidLFrom, partsOf, ratioOf, starterMlFor } from './dilution-sums.ts';
import { type Notebook, openNotebook, told } from './notebook.ts';
import { unitSlip } from './unit-slips.ts';

/** Within this of 1 a household measure can tell no difference: our own choice, no source. */
const nearEnough = 0.1;

function meaningOf(convention: DilutionConvention, ratio: number): string {
  const parts = figure(ratio);
  return convention === 'part-in'
    ? `1 part of starter in ${parts} parts of the finished liquid`
    : `1 part of starter and ${parts} parts of water beside it`;
}

export function planDilution(ask: DilutionAsk): DilutionAnswer {
  const { ratio, convention, onHandMl, measuredMl } = ask;
  const book = openNotebook(ask.units);
  const divisor = convention === 'part-in' ? figure(ratio) : `(${figure(ratio)} + 1)`;

  const makesL = onHandMl === undefined ? undefined : liquidLFrom(onHandMl, ratio, convention);
  if (onHandMl !== undefined && makesL !== undefined) {
    book.step('liquid the starter on hand makes', `${book.say('starterMl', onHandMl)} × ${divisor}`, 'volumeL', makesL);
  }
  // The schema asks for one of the two.
  const liquidL = ask.waterL ?? makesL ?? 0;
  const starterMl = book.step(
    'starter',
    `${book.say('volumeL', liquidL)} ÷ ${divisor}`,
    'starterMl',
    starterMlFor(liquidL, ratio, convention),
  );
  const waterToAddL = book.step(
    'water that makes it up',
    `${book.say('volumeL', liquidL)} − ${book.say('starterMl', starterMl)}`,
    'volumeL',
    liquidL - starterMl / 1000,
  );

  if (partsOf(ratio, convention) < 50) {
    book.remark(
      'watch',
      'At so strong a ratio it matters where the starter goes: pour it first, then fill with water up to the mark.',
    );
  }
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
    ...told(
      book,
      `Take ${book.say('starterMl', starterMl)} of starter and fill up with water to ${book.say('volumeL', liquidL)}: ${meaning}.`,
    ),
  };
}

function sayOnHand(book: Notebook, makesL: number, liquidL: number) {
  // The quotient and the product may differ in the last bit.
  const enough = makesL >= liquidL * (1 - 1e-9);
  book.remark(
    enough ? 'calm' : 'act',
    enough
      ? `The starter on hand makes up to ${book.say('volumeL', makesL)} of it.`
      : `The starter on hand is enough for ${book.say('volumeL', makesL)} only.`,
  );
  return { makesL, enough };
}

function judgeMeasured(book: Notebook, ask: DilutionAsk, liquidL: number, starterMl: number, measuredMl: number) {
  const { ratio, convention } = ask;
  const liquid = book.say('volumeL', liquidL);
  const measured = book.say('starterMl', measuredMl);
  const actualRatio = book.step(
    'the N it really is',
    convention === 'part-in' ? `${liquid} ÷ ${measured}` : `(${liquid} − ${measured}) ÷ ${measured}`,
    'number',
    ratioOf(liquidL, measuredMl, convention),
  );
  const factorOff = book.step(
    'times the starter asked for',
    `${measured} ÷ ${book.say('starterMl', starterMl)}`,
    'number',
    measuredMl / starterMl,
  );
  const rightForL = liquidLFrom(measuredMl, ratio, convention);
  const really = `${measured} in ${liquid} is really 1:${figure(actualRatio, 3)}`;
  const slip = unitSlip(factorOff);
  const guess = slip === null ? '' : ` Look at the units: ${slip}.`;
  if (Math.abs(factorOff - 1) <= nearEnough) {
    book.remark('calm', `${really}, as near to 1:${figure(ratio)} as a household measure gets.`);
  } else if (factorOff > 1) {
    book.remark(
      factorOff > 1.5 ? 'act' : 'watch',
      `${really}: ${times(factorOff)} as much starter as 1:${figure(ratio)} asks for.${guess} If it is poured already, it is right for ${book.tell('volumeL', rightForL)} of liquid in all.`,
    );
  } else {
    book.remark(
      factorOff < 1 / 1.5 ? 'act' : 'watch',
      `${really}: only ${book.tell('share', factorOff)} of the starter that 1:${figure(ratio)} asks for.${guess} Add ${book.tell('starterMl', starterMl - measuredMl)} of starter.`,
    );
  }
  return { actualRatio, factorOff, rightForL };
}

function times(factor: number): string {
  return `${Number(factor.toPrecision(factor < 10 ? 2 : 3))} times`;
}
