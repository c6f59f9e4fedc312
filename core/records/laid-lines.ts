/**
 * What was laid, line by line, for page and paper alike: what was given, or that it was not; and apart from it what is reckoned with
 * instead, with where that comes from.
 */
import {
  type Assumption,
  type Cover,
  coverNames,
  type GivenRecipe,
  type LaidFact,
  type Shelter,
  shelterNames,
} from '../../shared/contracts/domain/batch.ts';
import type { Stage } from '../../shared/names.ts';
import { type Material, materialNames } from '../../shared/profiles/material-names.ts';

export interface LaidLine {
  readonly what: string;
  /** Null where it was not given. */
  readonly given: string | null;
  /** @example "assumed 29 cm: the middle of what is usual in the bran stage (common practice, no source)" */
  readonly assumed: string | null;
}

/** Tells an amount in the reader's units. */
export type TellAmount = (kind: 'depthM' | 'massKg', value: number) => string;

const names: Record<LaidFact, string> = {
  material: 'Made of',
  depthM: 'Depth',
  massKg: 'Mass as laid',
  moistureFrac: 'Moisture as laid',
  doseFrac: 'Culture mixed in',
  cover: 'Cover',
  shelter: 'Where it lies',
};

export interface Laid {
  readonly stage: Stage;
  readonly recipe: GivenRecipe;
  readonly assumed: readonly Assumption[];
}

export function laidLines(laid: Laid, tell: TellAmount): LaidLine[] {
  return (Object.keys(names) as LaidFact[]).map((fact) => {
    const given = laid.recipe[fact];
    const assumption = laid.assumed.find((one) => one.fact === fact);
    return {
      what: names[fact],
      given: given === undefined ? null : capital(valueText(fact, given, tell)),
      assumed:
        assumption === undefined
          ? null
          : `assumed ${valueText(fact, assumption.value, tell)}: ${originText(assumption, laid)}`,
    };
  });
}

function valueText(fact: LaidFact, value: string | number, tell: TellAmount): string {
  if (fact === 'depthM' || fact === 'massKg') return tell(fact, Number(value));
  if (fact === 'moistureFrac') return `${Math.round(Number(value) * 100)} %, wet basis`;
  if (fact === 'doseFrac') return `${Math.round(Number(value) * 1000) / 10} % of the wet mass`;
  if (fact === 'material') return materialNames[value as Material];
  return fact === 'cover' ? coverNames[value as Cover] : shelterNames[value as Shelter];
}

function originText({ fact, origin }: Assumption, { stage, recipe, assumed }: Laid): string {
  switch (origin) {
    case 'usual-of-stage':
      return `${fact === 'depthM' ? 'the middle of what is usual' : 'usual'} in the ${stage} stage (common practice, no source)`;
    case 'usual-of-material': {
      const material = recipe.material ?? assumed.find((one) => one.fact === 'material')?.value;
      return material === undefined || material === 'other'
        ? 'our own estimate, no source'
        : `usual for a ${material === 'soil-mix' || material === 'compost-mix' ? '' : 'bed of '}${materialNames[material as Material]} (our own estimate, no source)`;
    }
    case 'own-estimate':
      return 'our own estimate, no source';
    case 'sum-of-inputs':
      return 'the sum of what went into it';
    case 'as-the-whole':
      return 'as the batch lay that it was split off';
    case 'counted-as':
      return 'rain that is written down counts as falling on it';
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
