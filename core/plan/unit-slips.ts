/** Which mixing up of units would explain an amount several times off. */
import { litresPerUsGallon, mlPerUsFluidOunce, mlPerUsTablespoon, mlPerUsTeaspoon } from '../../shared/units.ts';

interface Slip {
  readonly factor: number;
  readonly tooMuch: string;
  readonly tooLittle: string;
}

const slips: readonly Slip[] = [
  {
    factor: mlPerUsTablespoon / mlPerUsTeaspoon,
    tooMuch: 'tablespoons may have been measured for teaspoons',
    tooLittle: 'teaspoons may have been measured for tablespoons',
  },
  {
    factor: litresPerUsGallon,
    tooMuch: 'it may have been worked out for US gallons and poured into as many litres',
    tooLittle: 'it may have been worked out for litres and poured into as many US gallons',
  },
  {
    factor: mlPerUsTeaspoon,
    tooMuch: 'teaspoons may have been counted for millilitres',
    tooLittle: 'millilitres may have been counted for teaspoons',
  },
  {
    factor: 10,
    tooMuch: 'the decimal point may be one place off',
    tooLittle: 'the decimal point may be one place off',
  },
  {
    factor: mlPerUsTablespoon,
    tooMuch: 'tablespoons may have been counted for millilitres',
    tooLittle: 'millilitres may have been counted for tablespoons',
  },
  {
    factor: mlPerUsFluidOunce,
    tooMuch: 'fluid ounces may have been taken for millilitres',
    tooLittle: 'millilitres may have been taken for fluid ounces',
  },
];

/** How closely a factor must fit: a household measure is no better. */
const fit = 0.05;

/** @param factorOff Measured over wanted [-]. @example unitSlip(3.8) // => "it may have been worked out for US gallons …" */
export function unitSlip(factorOff: number): string | null {
  const size = factorOff >= 1 ? factorOff : 1 / factorOff;
  const slip = slips.find(({ factor }) => Math.abs(size / factor - 1) <= fit);
  if (!slip) return null;
  return factorOff >= 1 ? slip.tooMuch : slip.tooLittle;
}
