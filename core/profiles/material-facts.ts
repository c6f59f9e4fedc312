/**
 * What each material brings to the expected curve, with how unsure we are.
 *
 * Densities of brans: FAO ADCP appendix XI (wheat bran 170-250, rice bran 320-330 kg/m3 as stored, less 10 % water).
 * Burning shares and mixes are our own priors: no source found. A pile reaches 50 °C on 1-2 % of its dry matter
 * (computed).
 */
import type { Material } from '../../shared/contracts/domain/batch.ts';

export interface MaterialFacts {
  readonly dryDensityKgM3: number;
  readonly dryDensityLogSd: number;
  readonly particleDensityKgM3: number;
  readonly burningFrac: number;
  readonly burningLogSd: number;
  /** Moisture, wet basis, when the grower did not say: mean and standard deviation. */
  readonly moistureFrac: number;
  readonly moistureSd: number;
  /**
   * Most that it holds against gravity, wet basis [-]. Suction is nought at 64 % (Miller 1989) or 62 % (Serra-Wittling 1996) in
   * composting masses, read second-hand; bran is finer and practice goes to 65-70 %.
   */
  readonly holdsFrac: number;
}

export const materialFacts: Record<Material, MaterialFacts> = {
  'wheat-bran': {
    dryDensityKgM3: 185,
    dryDensityLogSd: 0.12,
    particleDensityKgM3: 1500,
    burningFrac: 0.036,
    burningLogSd: 0.3,
    moistureFrac: 0.59,
    moistureSd: 0.04,
    holdsFrac: 0.67,
  },
  'rice-bran': {
    dryDensityKgM3: 290,
    dryDensityLogSd: 0.1,
    particleDensityKgM3: 1500,
    burningFrac: 0.034,
    burningLogSd: 0.3,
    moistureFrac: 0.56,
    moistureSd: 0.04,
    holdsFrac: 0.66,
  },
  'soil-mix': {
    dryDensityKgM3: 520,
    dryDensityLogSd: 0.2,
    particleDensityKgM3: 2300,
    burningFrac: 0.014,
    burningLogSd: 0.45,
    moistureFrac: 0.43,
    moistureSd: 0.05,
    holdsFrac: 0.52,
  },
  'compost-mix': {
    dryDensityKgM3: 350,
    dryDensityLogSd: 0.2,
    particleDensityKgM3: 1800,
    burningFrac: 0.025,
    burningLogSd: 0.45,
    moistureFrac: 0.47,
    moistureSd: 0.05,
    holdsFrac: 0.6,
  },
  other: {
    dryDensityKgM3: 260,
    dryDensityLogSd: 0.35,
    particleDensityKgM3: 1500,
    burningFrac: 0.08,
    burningLogSd: 0.5,
    moistureFrac: 0.52,
    moistureSd: 0.08,
    holdsFrac: 0.65,
  },
};

/** Of soil or compost with bran in it, rather than bran alone. */
export function isSoilMix(material: Material): boolean {
  return material === 'soil-mix' || material === 'compost-mix';
}
