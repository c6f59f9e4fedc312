/**
 * What each material is like when nobody measured it, and where each figure comes from. It never stands against a
 * grower's own weighing: every one of these may be overridden.
 */
import type { Ingredient } from '../../shared/contracts/plan.ts';
import type { Fact } from './notebook.ts';

export interface IngredientFacts {
  readonly name: string;
  /** Both as stored; null where materials differ too much for a default. */
  readonly bulkDensityKgM3: Fact | null;
  readonly moistureFrac: Fact | null;
  readonly particleDensityKgM3: Fact;
  /** Moisture wanted, wet basis, and the band in which it is usual. */
  readonly targetFrac: Fact | null;
  readonly usual: { readonly fromFrac: number; readonly toFrac: number; readonly origin: string };
  /** Of the dry matter; null where nobody can guess. */
  readonly carbonFrac: Fact | null;
  readonly nitrogenFrac: Fact | null;
}

const practice = 'common practice, no source';
const assumed = 'an assumption, no source';
const faoDensities = 'FAO ADCP/REP/87/26, appendix XI';
const cooperbandBand = 'acceptable for composting: Cooperband 2002 (second-hand)';

export const ingredientFacts: Record<Ingredient, IngredientFacts> = {
  'wheat-bran': {
    name: 'wheat bran',
    bulkDensityKgM3: { value: 200, origin: `${faoDensities}: 170 to 250 kg/m3, of which 200 is our choice` },
    moistureFrac: {
      value: 0.12,
      origin: 'trade pages: 6.3 to 12.8 %, at most 15 % (second-hand), of which 12 is our choice',
    },
    particleDensityKgM3: { value: 1500, origin: assumed },
    targetFrac: { value: 0.6, origin: practice },
    usual: {
      fromFrac: 0.5,
      toFrac: 0.65,
      origin: `${practice}; Cornell's upper limit for most composts is 55 to 60 %`,
    },
    carbonFrac: { value: 0.45, origin: 'from memory' },
    nitrogenFrac: { value: 0.0277, origin: 'crude protein 17.3 % of dry matter (from memory), over 6.25' },
  },
  'rice-bran': {
    name: 'rice bran',
    bulkDensityKgM3: { value: 330, origin: `${faoDensities}: 320 to 330 kg/m3` },
    moistureFrac: { value: 0.12, origin: '10 to 13 %, from memory, of which 12 is our choice' },
    particleDensityKgM3: { value: 1500, origin: assumed },
    targetFrac: { value: 0.55, origin: `${practice}; lower than for wheat bran because fine bran runs out of air` },
    usual: { fromFrac: 0.5, toFrac: 0.6, origin: practice },
    carbonFrac: { value: 0.45, origin: 'from memory' },
    nitrogenFrac: { value: 0.0236, origin: 'crude protein about 13 % as sold (from memory), of dry matter, over 6.25' },
  },
  soil: {
    name: 'garden soil',
    bulkDensityKgM3: { value: 1200, origin: 'moist and loose: 1000 to 1300 kg/m3, from memory' },
    moistureFrac: { value: 0.2, origin: '15 to 25 %, from memory' },
    particleDensityKgM3: { value: 2650, origin: 'quartz, from memory' },
    targetFrac: { value: 0.2, origin: 'moist, not muddy: 15 to 25 %, from memory' },
    usual: { fromFrac: 0.15, toFrac: 0.25, origin: 'from memory' },
    carbonFrac: null,
    nitrogenFrac: null,
  },
  compost: {
    name: 'finished compost',
    bulkDensityKgM3: { value: 593, origin: '1000 lb per cubic yard: Cooperband 2002 (second-hand)' },
    moistureFrac: { value: 0.45, origin: '40 to 50 %, from memory' },
    particleDensityKgM3: { value: 1800, origin: assumed },
    targetFrac: { value: 0.5, origin: 'preferred for composting, 45 to 60 %: Cooperband 2002 (second-hand)' },
    usual: { fromFrac: 0.4, toFrac: 0.65, origin: cooperbandBand },
    carbonFrac: null,
    nitrogenFrac: null,
  },
  other: {
    name: 'material',
    bulkDensityKgM3: null,
    moistureFrac: null,
    particleDensityKgM3: { value: 1500, origin: `${assumed}; plant matter` },
    targetFrac: null,
    usual: { fromFrac: 0.4, toFrac: 0.65, origin: cooperbandBand },
    carbonFrac: null,
    nitrogenFrac: null,
  },
};

/** Least share of the volume that should be air. */
export const freeAirSpaceFloor: Fact = {
  value: 0.3,
  origin:
    'usually taken in composting; Das and Keener 1997 find less than it above 60 % moisture (abstract, second-hand)',
};

/** Share of all the liquid to give before the first squeeze test. */
export const firstShare: Fact = {
  value: 0.75,
  origin: 'our own choice, no source: water cannot be taken out again, and bran is often damper than thought',
};
