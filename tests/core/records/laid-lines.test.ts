import { expect, test } from 'vitest';
import { laidLines } from '../../../core/records/laid-lines.ts';
import { fillRecipe } from '../../../core/session/fill-recipe.ts';
import { type GivenRecipe, givenRecipeSchema } from '../../../shared/contracts/domain/batch.ts';
import type { Message } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { type Stage, stages } from '../../../shared/names.ts';
import { stageLimits } from '../../../shared/stage.ts';

function linesOf(stage: Stage, given: GivenRecipe, inKg: number | null = null) {
  const { assumed } = fillRecipe(stage, given, stageLimits[stage], inKg);
  const say = (said: Message | null) => said && plainEnglish(said);
  return laidLines({ stage, recipe: given, assumed }).map((line) => ({
    what: plainEnglish(line.what),
    given: say(line.given),
    assumed: say(line.assumed),
  }));
}

const whole: Required<GivenRecipe> = {
  material: 'rice-bran',
  depthM: 0.24,
  massKg: 80,
  moistureFrac: 0.58,
  doseFrac: 0.008,
  cover: 'closed',
  shelter: 'roof',
};

test('a bed of which all was given assumes nothing, and is reckoned with as it was given', () => {
  expect(fillRecipe('bran', whole, stageLimits.bran)).toEqual({ recipe: whole, assumed: [] });
  expect(linesOf('bran', whole).map(({ what, given, assumed }) => [what, given, assumed])).toEqual([
    ['Made of', 'Rice bran', null],
    ['Depth', '24 cm', null],
    ['Mass as laid', '80 kg', null],
    ['Moisture as laid', '58 %, wet basis', null],
    ['Culture mixed in', '0.8 % of the wet mass', null],
    ['Cover', 'Closed (sheet, lid)', null],
    ['Where it lies', 'Under a roof', null],
  ]);
});

test('a bed of which nothing was given has no given line, and says what stands for each and where that comes from', () => {
  expect(linesOf('bran', {}).map(({ what, given, assumed }) => [what, given, assumed])).toEqual([
    ['Made of', null, 'assumed wheat bran: usual in the bran stage (common practice, no source)'],
    ['Depth', null, 'assumed 29 cm: the middle of what is usual in the bran stage (common practice, no source)'],
    ['Mass as laid', null, null],
    ['Moisture as laid', null, 'assumed 59 %, wet basis: usual for a bed of wheat bran (our own estimate, no source)'],
    ['Culture mixed in', null, 'assumed 1 % of the wet mass: our own estimate, no source'],
    ['Cover', null, 'assumed breathable (straw, mats, cloth): usual in the bran stage (common practice, no source)'],
    ['Where it lies', null, 'assumed no roof: rain that is written down counts as falling on it'],
  ]);
});

for (const stage of stages) {
  for (const fact of givenRecipeSchema.keyof().options) {
    test(`${fact} of a bed in the ${stage} stage is either given or told as not given, never as given when it was not`, () => {
      const { [fact]: _, ...rest } = whole;
      const { recipe, assumed } = fillRecipe(stage, rest, stageLimits[stage]);
      expect(assumed.map((one) => one.fact)).toEqual(fact === 'massKg' ? [] : [fact]);
      expect(recipe).toMatchObject(rest);
      const lines = linesOf(stage, rest);
      expect(lines.filter(({ given }) => given === null)).toHaveLength(1);
      expect(lines.filter(({ assumed: words }) => words !== null)).toHaveLength(assumed.length);
    });
  }
}

test('the mass of what was made of other batches is told as the sum of what went in, unless it was weighed', () => {
  const mass = (given: GivenRecipe) => linesOf('soil', given, 75).find(({ what }) => what === 'Mass as laid');
  expect(mass({})).toMatchObject({ given: null, assumed: 'assumed 75 kg: the sum of what went into it' });
  expect(mass({ massKg: 71 })).toMatchObject({ given: '71 kg', assumed: null });
});
