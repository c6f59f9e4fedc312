/** How many times a recipe makes what is wanted. */
import type { MixAsk } from '../../shared/contracts/plan.ts';
import { message } from '../../shared/messages/message.ts';
import { amount, type Measured, type Sum, sum } from '../../shared/sum.ts';
import type { Notebook } from './notebook.ts';

const what = message('plan.step.times');

/** @param laidKg Mass of the recipe as laid, starter and water in it. */
export function workOutTimes(book: Notebook, ask: MixAsk, laidKg: number, volumeL: number | null): number {
  const { wanted, spread } = ask;
  if (!wanted) return 1;
  const byMass = (massKg: number, dividend: Measured | Sum) =>
    book.step(what, sum`${dividend} ÷ ${amount('massKg', laidKg)}`, 'number', massKg / laidKg);
  const byVolume = (litres: number, dividend: Measured | Sum) => {
    if (volumeL === null) throw new RangeError('Cannot fit a recipe to a volume as its own must be known');
    return book.step(what, sum`${dividend} ÷ ${amount('volumeL', volumeL)}`, 'number', litres / volumeL);
  };
  switch (wanted.of) {
    case 'mass':
      return byMass(wanted.massKg, amount('massKg', wanted.massKg));
    case 'volume':
      return byVolume(wanted.volumeL, amount('volumeL', wanted.volumeL));
    case 'area': {
      if (!spread) throw new RangeError('Cannot fit a recipe to an area as the rate or depth must be known');
      const area = amount('areaM2', wanted.areaM2);
      return spread.by === 'rate'
        ? byMass(wanted.areaM2 * spread.rateKgM2, sum`${area} × ${amount('rateKgM2', spread.rateKgM2)}`)
        : byVolume(wanted.areaM2 * spread.depthM * 1000, sum`${area} × ${amount('depthM', spread.depthM)}`);
    }
    case 'material': {
      const given = ask.materials[wanted.index];
      if (!given) throw new RangeError(`Cannot fit a recipe to material ${wanted.index} as there is none`);
      const kind = 'massKg' in given ? 'massKg' : 'volumeL';
      const inRecipe = 'massKg' in given ? given.massKg : given.volumeL;
      return book.step(
        what,
        sum`${amount(kind, wanted.amount)} ÷ ${amount(kind, inRecipe)}`,
        'number',
        wanted.amount / inRecipe,
      );
    }
  }
}
