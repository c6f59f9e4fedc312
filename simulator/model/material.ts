/**
 * What a pile is made of. It never a fitted number without saying so: figures from memory and assumptions are marked.
 */

export interface Material {
  /** Dry mass in a loosely laid volume [kg m⁻³]. */
  readonly looseBulkKgM3: number;
  /** Density of the particles themselves, without pores between them [kg m⁻³]. */
  readonly particleKgM3: number;
  /** Particle size that sets how easily air passes [m]. */
  readonly particleM: number;
  /** Specific heat of the dry mass [J kg⁻¹ K⁻¹]. */
  readonly dryHeatJKgK: number;
  /** Conductivity when dry [W m⁻¹ K⁻¹]. */
  readonly dryConductivityWmK: number;
  /** Water it holds against gravity, over dry mass [-]. */
  readonly holdingDryBasis: number;
  /** Food that microbes take at once (sugars, open starch), share of dry mass [-]. */
  readonly readyFrac: number;
  /** Food that must first be broken down (fibre, protein, fat), share of dry mass [-]. */
  readonly slowFrac: number;
  /** Living cells it brings by itself, share of dry mass [-]. */
  readonly mesophilesFrac: number;
  readonly thermophilesFrac: number;
  /** Moisture as bought or dug, wet basis [-]. */
  readonly asBoughtMoistureFrac: number;
}

export const materialNames = ['wheat-bran', 'rice-bran', 'soil', 'finished-compost', 'fermented-bran'] as const;
export type MaterialName = (typeof materialNames)[number];

/*
 * Bulk density: wheat bran 170-250 and rice bran 320-330 kg/m³ as bought (FAO ADCP/REP, appendix XI), at 12 % moisture.
 * Soil 1000-1300 kg/m³ moist and loose (from memory); compost 593 kg/m³ (Cooperband 2002) at 45 % moisture.
 * Particle density 1500 kg/m³ for bran: assumption. 2650 for soil minerals: common value, from memory.
 * Specific heat: Haug 1993 gives 1.05 for dry solids, others 1.2-1.4 kJ/kg K (from memory); minerals 0.85 (from memory).
 * Conductivity: dry straws and shavings 0.03-0.30 W/m K (Ahn et al. 2009); dry soil 0.25 (from memory).
 * Food: wheat bran holds about 15-25 % starch and 4-7 % sugars of dry mass, rice bran more starch and 15 % oil
 * (feed tables, from memory). How much is "ready" is an assumption of this model.
 * Particle size, holding water and native cells: assumptions, no source found.
 */
export const materials: Record<MaterialName, Material> = {
  'wheat-bran': {
    looseBulkKgM3: 176,
    particleKgM3: 1500,
    particleM: 0.0007,
    dryHeatJKgK: 1300,
    dryConductivityWmK: 0.05,
    holdingDryBasis: 2.4,
    readyFrac: 0.065,
    slowFrac: 0.4,
    mesophilesFrac: 2e-5,
    thermophilesFrac: 3e-5,
    asBoughtMoistureFrac: 0.12,
  },
  'rice-bran': {
    looseBulkKgM3: 290,
    particleKgM3: 1500,
    particleM: 0.0003,
    dryHeatJKgK: 1400,
    dryConductivityWmK: 0.07,
    holdingDryBasis: 1.9,
    readyFrac: 0.08,
    slowFrac: 0.4,
    mesophilesFrac: 2e-5,
    thermophilesFrac: 3e-5,
    asBoughtMoistureFrac: 0.11,
  },
  soil: {
    looseBulkKgM3: 950,
    particleKgM3: 2650,
    particleM: 0.0004,
    dryHeatJKgK: 850,
    dryConductivityWmK: 0.25,
    holdingDryBasis: 0.35,
    readyFrac: 0.0005,
    slowFrac: 0.015,
    mesophilesFrac: 2e-4,
    thermophilesFrac: 1e-6,
    asBoughtMoistureFrac: 0.18,
  },
  'finished-compost': {
    looseBulkKgM3: 326,
    particleKgM3: 1700,
    particleM: 0.0015,
    dryHeatJKgK: 1050,
    dryConductivityWmK: 0.08,
    holdingDryBasis: 1.5,
    readyFrac: 0.004,
    slowFrac: 0.08,
    mesophilesFrac: 1e-3,
    thermophilesFrac: 3e-4,
    asBoughtMoistureFrac: 0.45,
  },
  // Bran after its own week of heat: most of the ready food is gone and it is full of cells. Assumption.
  'fermented-bran': {
    looseBulkKgM3: 190,
    particleKgM3: 1500,
    particleM: 0.0007,
    dryHeatJKgK: 1300,
    dryConductivityWmK: 0.05,
    holdingDryBasis: 2.4,
    readyFrac: 0.035,
    slowFrac: 0.37,
    mesophilesFrac: 4e-3,
    thermophilesFrac: 1e-4,
    asBoughtMoistureFrac: 0.45,
  },
};

/** A material and its share of the dry mass of a mix. */
export interface Share {
  readonly material: Material;
  readonly dryKg: number;
}

/**
 * Constants of several materials stirred together, weighted by dry mass; densities by volume.
 *
 * @throws {RangeError} If the dry mass is not above 0.
 */
export function blendOf(shares: readonly Share[]): Material {
  const dryKg = shares.reduce((sum, share) => sum + share.dryKg, 0);
  if (!(dryKg > 0))
    throw new RangeError(`Cannot blend materials as their dry mass must be above 0 kg: current value is ${dryKg}`);
  const mean = (pick: (material: Material) => number) =>
    shares.reduce((sum, share) => sum + share.dryKg * pick(share.material), 0) / dryKg;
  return {
    looseBulkKgM3: 1 / mean((m) => 1 / m.looseBulkKgM3),
    particleKgM3: 1 / mean((m) => 1 / m.particleKgM3),
    particleM: mean((m) => m.particleM),
    dryHeatJKgK: mean((m) => m.dryHeatJKgK),
    dryConductivityWmK: mean((m) => m.dryConductivityWmK),
    holdingDryBasis: mean((m) => m.holdingDryBasis),
    readyFrac: mean((m) => m.readyFrac),
    slowFrac: mean((m) => m.slowFrac),
    mesophilesFrac: mean((m) => m.mesophilesFrac),
    thermophilesFrac: mean((m) => m.thermophilesFrac),
    asBoughtMoistureFrac: mean((m) => m.asBoughtMoistureFrac),
  };
}
