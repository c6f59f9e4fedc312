/** Which mixing up of units would explain an amount several times off. */
import { type Message, message } from '../../shared/messages/message.ts';
import { litresPerUsGallon, mlPerUsFluidOunce, mlPerUsTablespoon, mlPerUsTeaspoon } from '../../shared/units.ts';

interface Slip {
  readonly factor: number;
  readonly tooMuch: Message;
  readonly tooLittle: Message;
}

/** Units that are taken for each other, by how far that is off [-]: by definition of the units. */
const slips: readonly Slip[] = [
  {
    factor: mlPerUsTablespoon / mlPerUsTeaspoon,
    tooMuch: message('plan.slip.teaspoons-as-tablespoons'),
    tooLittle: message('plan.slip.tablespoons-as-teaspoons'),
  },
  {
    factor: litresPerUsGallon,
    tooMuch: message('plan.slip.gallons-into-litres'),
    tooLittle: message('plan.slip.litres-into-gallons'),
  },
  {
    factor: mlPerUsTeaspoon,
    tooMuch: message('plan.slip.millilitres-as-teaspoons'),
    tooLittle: message('plan.slip.teaspoons-as-millilitres'),
  },
  {
    factor: 10,
    tooMuch: message('plan.slip.decimal-point'),
    tooLittle: message('plan.slip.decimal-point'),
  },
  {
    factor: mlPerUsTablespoon,
    tooMuch: message('plan.slip.millilitres-as-tablespoons'),
    tooLittle: message('plan.slip.tablespoons-as-millilitres'),
  },
  {
    factor: mlPerUsFluidOunce,
    tooMuch: message('plan.slip.millilitres-as-ounces'),
    tooLittle: message('plan.slip.ounces-as-millilitres'),
  },
];

/** How closely a factor must fit, as a share of it: a household measure is no better [-]; common practice, no source. */
const fit = 0.05;

/** @param factorOff Measured over wanted [-]. @example unitSlip(3.8)?.code // => "plan.slip.gallons-into-litres" */
export function unitSlip(factorOff: number): Message | null {
  const size = factorOff >= 1 ? factorOff : 1 / factorOff;
  const slip = slips.find(({ factor }) => Math.abs(size / factor - 1) <= fit);
  if (!slip) return null;
  return factorOff >= 1 ? slip.tooMuch : slip.tooLittle;
}
