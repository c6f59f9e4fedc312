/**
 * Every fact of every material, each once and with its source. Planner, expected band, water balance, forms and API read it here.
 * "Add a material" in DEVELOPERS.md says how to add one.
 *
 * What a pile brings besides its densities (burning shares, moistures nobody gave, what it holds, how it lets vapour through) are our
 * own priors: no source found. A pile reaches 50 °C on 1-2 % of its dry matter (computed).
 */
import { type Message, message } from '../messages/message.ts';

/** A figure that stands where nobody measured, with where it comes from. */
export interface Fact {
  readonly value: number;
  readonly origin: Message;
}

/** As it is stored or dug. */
interface Stored {
  readonly bulkDensityKgM3: Fact;
  readonly moistureFrac: Fact;
}

/** What the planner takes for it; null where materials differ too much, and the grower must say. */
interface Ingredient {
  readonly stored: Stored | null;
  /** Moisture wanted, wet basis, and the band in which it is usual. */
  readonly targetFrac: Fact | null;
  readonly usual: { readonly fromFrac: number; readonly toFrac: number; readonly origin: Message };
  /** Of the dry matter. */
  readonly carbonFrac: Fact | null;
  readonly nitrogenFrac: Fact | null;
  /** The material of a pile in which it is the largest part. */
  readonly laidAs: string;
}

/** What a pile of it brings to the expected band and the water balance, with how unsure we are. */
interface InPile {
  readonly dryDensityKgM3: number;
  readonly dryDensityLogSd: number;
  /** Dry matter that can burn at once, as a share of all. */
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
  /** How it holds back vapour against wheat bran [-]: fine bran lets less through than coarse. */
  readonly vapourShare: number;
}

export interface MaterialProfile {
  readonly name: Message;
  /** Bran heats by itself and dusts when dry; soil is soil or compost, with bran in it once it is laid. */
  readonly family: 'bran' | 'soil' | 'other';
  /** Of the solid itself. */
  readonly particleDensityKgM3: Fact;
  /** Absent where nobody mixes or wets it as such. */
  readonly ingredient?: Ingredient;
  /** Absent where no pile is laid of it as such. */
  readonly inPile?: InPile;
}

const practice = message('origin.practice');
const assumption = message('origin.assumption');
const memory = message('origin.memory');
const composting = message('origin.composting-moisture');

const dryDensityKgM3 = ({ bulkDensityKgM3, moistureFrac }: Stored): number =>
  bulkDensityKgM3.value * (1 - moistureFrac.value);

/** 184.8 kg of dry matter in a cubic metre. */
const storedWheatBran: Stored = {
  bulkDensityKgM3: { value: 210, origin: message('origin.wheat-bran-bulk') },
  moistureFrac: { value: 0.12, origin: message('origin.wheat-bran-moisture') },
};

/** 290.4 kg of dry matter in a cubic metre. */
const storedRiceBran: Stored = {
  bulkDensityKgM3: { value: 330, origin: message('origin.rice-bran-bulk') },
  moistureFrac: { value: 0.12, origin: message('origin.rice-bran-moisture') },
};

/** In the order in which lists show them. */
export const materialProfiles = {
  'wheat-bran': {
    name: message('material.wheat-bran'),
    family: 'bran',
    particleDensityKgM3: { value: 1500, origin: assumption },
    ingredient: {
      stored: storedWheatBran,
      targetFrac: { value: 0.6, origin: practice },
      usual: { fromFrac: 0.5, toFrac: 0.65, origin: message('origin.wheat-bran-usual') },
      carbonFrac: { value: 0.45, origin: memory },
      nitrogenFrac: { value: 0.0277, origin: message('origin.wheat-bran-nitrogen') },
      laidAs: 'wheat-bran',
    },
    inPile: {
      dryDensityKgM3: dryDensityKgM3(storedWheatBran),
      dryDensityLogSd: 0.12,
      burningFrac: 0.036,
      burningLogSd: 0.3,
      moistureFrac: 0.59,
      moistureSd: 0.04,
      holdsFrac: 0.67,
      vapourShare: 1,
    },
  },
  'rice-bran': {
    name: message('material.rice-bran'),
    family: 'bran',
    particleDensityKgM3: { value: 1500, origin: assumption },
    ingredient: {
      stored: storedRiceBran,
      targetFrac: { value: 0.55, origin: message('origin.rice-bran-target') },
      usual: { fromFrac: 0.5, toFrac: 0.6, origin: practice },
      carbonFrac: { value: 0.45, origin: memory },
      nitrogenFrac: { value: 0.0236, origin: message('origin.rice-bran-nitrogen') },
      laidAs: 'rice-bran',
    },
    inPile: {
      dryDensityKgM3: dryDensityKgM3(storedRiceBran),
      dryDensityLogSd: 0.1,
      burningFrac: 0.034,
      burningLogSd: 0.3,
      moistureFrac: 0.56,
      moistureSd: 0.04,
      holdsFrac: 0.66,
      vapourShare: 1.6,
    },
  },
  soil: {
    name: message('material.soil'),
    family: 'soil',
    particleDensityKgM3: { value: 2650, origin: message('origin.quartz') },
    ingredient: {
      stored: {
        bulkDensityKgM3: { value: 1200, origin: message('origin.soil-bulk') },
        moistureFrac: { value: 0.2, origin: message('origin.soil-moisture') },
      },
      targetFrac: { value: 0.2, origin: message('origin.soil-target') },
      usual: { fromFrac: 0.15, toFrac: 0.25, origin: memory },
      carbonFrac: null,
      nitrogenFrac: null,
      laidAs: 'soil-mix',
    },
  },
  compost: {
    name: message('material.compost'),
    family: 'soil',
    particleDensityKgM3: { value: 1800, origin: assumption },
    ingredient: {
      stored: {
        bulkDensityKgM3: { value: 593, origin: message('origin.compost-bulk') },
        moistureFrac: { value: 0.45, origin: message('origin.compost-moisture') },
      },
      targetFrac: { value: 0.5, origin: message('origin.compost-target') },
      usual: { fromFrac: 0.4, toFrac: 0.65, origin: composting },
      carbonFrac: null,
      nitrogenFrac: null,
      laidAs: 'compost-mix',
    },
  },
  'soil-mix': {
    name: message('material.soil-mix'),
    family: 'soil',
    // Between quartz and bran.
    particleDensityKgM3: { value: 2300, origin: assumption },
    inPile: {
      dryDensityKgM3: 520,
      dryDensityLogSd: 0.2,
      burningFrac: 0.014,
      burningLogSd: 0.45,
      moistureFrac: 0.43,
      moistureSd: 0.05,
      holdsFrac: 0.52,
      vapourShare: 1.2,
    },
  },
  'compost-mix': {
    name: message('material.compost-mix'),
    family: 'soil',
    particleDensityKgM3: { value: 1800, origin: assumption },
    inPile: {
      dryDensityKgM3: 350,
      dryDensityLogSd: 0.2,
      burningFrac: 0.025,
      burningLogSd: 0.45,
      moistureFrac: 0.47,
      moistureSd: 0.05,
      holdsFrac: 0.6,
      vapourShare: 0.95,
    },
  },
  other: {
    name: message('material.other'),
    family: 'other',
    particleDensityKgM3: { value: 1500, origin: message('origin.assumption-plants') },
    ingredient: {
      stored: null,
      targetFrac: null,
      usual: { fromFrac: 0.4, toFrac: 0.65, origin: composting },
      carbonFrac: null,
      nitrogenFrac: null,
      laidAs: 'other',
    },
    inPile: {
      dryDensityKgM3: 260,
      dryDensityLogSd: 0.35,
      burningFrac: 0.08,
      burningLogSd: 0.5,
      moistureFrac: 0.52,
      moistureSd: 0.08,
      holdsFrac: 0.65,
      vapourShare: 1,
    },
  },
} as const satisfies Record<string, MaterialProfile>;
