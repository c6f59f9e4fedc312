/**
 * What was laid, line by line, for page and paper alike: what was given, or that it was not; and apart from it what is reckoned with
 * instead, with where that comes from.
 */
import type { Assumption, Cover, GivenRecipe, LaidFact, Shelter } from '../../shared/contracts/domain/batch.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Stage } from '../../shared/names.ts';
import type { Material } from '../../shared/profiles/material-names.ts';
import { materialProfiles } from '../../shared/profiles/materials.ts';

export interface LaidLine {
  readonly what: Message;
  /** Null where it was not given. */
  readonly given: Message | null;
  /** @example "assumed 29 cm: the middle of what is usual in the bran stage (common practice, no source)" */
  readonly assumed: Message | null;
}

const facts: readonly LaidFact[] = ['material', 'depthM', 'massKg', 'moistureFrac', 'doseFrac', 'cover', 'shelter'];

export interface Laid {
  readonly stage: Stage;
  readonly recipe: GivenRecipe;
  readonly assumed: readonly Assumption[];
}

export function laidLines(laid: Laid): LaidLine[] {
  return facts.map((fact) => {
    const given = laid.recipe[fact];
    const assumption = laid.assumed.find((one) => one.fact === fact);
    return {
      what: message(`laid.what.${fact}`),
      given: given === undefined ? null : message('laid.given', { valueCapitalPart: valueMessage(fact, given) }),
      assumed:
        assumption === undefined
          ? null
          : message('laid.assumed', {
              valuePart: valueMessage(fact, assumption.value),
              originPart: originMessage(assumption, laid),
            }),
    };
  });
}

function valueMessage(fact: LaidFact, value: string | number): Message {
  if (fact === 'depthM') return message('laid.depth', { bedCm: Number(value) * 100 });
  if (fact === 'massKg') return message('laid.mass', { laidKg: Number(value) });
  if (fact === 'moistureFrac') return message('laid.moisture', { moistureFrac: Number(value) });
  if (fact === 'doseFrac') return message('laid.dose', { dosePct: Number(value) * 100 });
  if (fact === 'material') return materialProfiles[value as Material].name;
  return fact === 'cover' ? message(`laid.cover.${value as Cover}`) : message(`laid.shelter.${value as Shelter}`);
}

function originMessage({ fact, origin }: Assumption, { stage, recipe, assumed }: Laid): Message {
  switch (origin) {
    case 'usual-of-stage':
      return message('laid.usual-of-stage', { stage, isMiddle: fact === 'depthM' });
    case 'usual-of-material': {
      const material = recipe.material ?? assumed.find((one) => one.fact === 'material')?.value;
      if (material === undefined || material === 'other') return message('laid.own-estimate');
      return message('laid.usual-of-material', {
        isMix: material === 'soil-mix' || material === 'compost-mix',
        materialPart: materialProfiles[material as Material].name,
      });
    }
    default:
      return message(`laid.${origin}`);
  }
}
