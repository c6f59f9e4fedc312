/** What burning a kilogram of food takes and makes. */

/** Molar masses [g mol⁻¹], IUPAC abridged. */
const carbon = 12.011;
const hydrogen = 1.008;
const oxygen = 15.999;

export interface Oxidation {
  /** Oxygen used [kg per kg burnt]. */
  readonly oxygenKgKg: number;
  /** Carbon dioxide made [kg per kg burnt]. */
  readonly carbonDioxideKgKg: number;
  /** Water made [kg per kg burnt]. */
  readonly waterKgKg: number;
  /** Carbon held [kg per kg]. */
  readonly carbonKgKg: number;
}

/**
 * Full oxidation of C_c H_h O_o:  C_c H_h O_o + (c + h/4 − o/2) O2 → c CO2 + (h/2) H2O.
 *
 * @example
 * oxidationOf(6, 12, 6).oxygenKgKg // glucose => 1.0656
 */
export function oxidationOf(c: number, h: number, o: number): Oxidation {
  const molar = c * carbon + h * hydrogen + o * oxygen;
  return {
    oxygenKgKg: ((c + h / 4 - o / 2) * 2 * oxygen) / molar,
    carbonDioxideKgKg: (c * (carbon + 2 * oxygen)) / molar,
    waterKgKg: ((h / 2) * (2 * hydrogen + oxygen)) / molar,
    carbonKgKg: (c * carbon) / molar,
  };
}

/** Starch or cellulose, C6H10O5: the food of this model. Cells are counted as the same formula, so carbon closes. */
export const starch = oxidationOf(6, 10, 5);

/**
 * Heat set free per kg of oxygen used [J kg⁻¹]: 2803 kJ per mol of glucose and 6 mol of oxygen (standard enthalpy,
 * from memory). About the 14 MJ that composting texts use for any food (Haug 1993, Finstein; from memory).
 */
export const heatPerOxygenJKg = 2_803_000 / (6 * 2 * oxygen * 1e-3);

/** Heat set free per kg of starch burnt [J kg⁻¹]. */
export const heatPerStarchJKg = heatPerOxygenJKg * starch.oxygenKgKg;
