/** The C:N of a mix with its working. */

import { type Message, message } from '../../shared/messages/message.ts';
import { amount, joined, sum } from '../../shared/sum.ts';
import { carbonNitrogenRatio } from './carbon-nitrogen.ts';
import type { Notebook } from './notebook.ts';
import type { Known, Portion } from './portion.ts';

/**
 * C:N below this is called rich in nitrogen [-]: the floor of Cooperband 2002 and of The Composting Handbook, table 4.2 (the latter
 * from memory); composts that 7 CFR 205.203(c)(2)(i) counts begin at 25 to 40.
 */
const richBelow = 20;

export function workOutCarbonNitrogen(book: Notebook, portions: readonly Portion[]): number | null {
  const known = portions.flatMap((one) => {
    const { carbon, nitrogen } = one;
    return carbon && nitrogen ? [{ ...one, carbon, nitrogen }] : [];
  });
  if (known.length < portions.length) {
    const unknown = portions.filter(({ carbon, nitrogen }) => !carbon || !nitrogen).map(({ name }) => name);
    const once = [...new Map(unknown.map((name) => [JSON.stringify(name), name])).values()];
    book.remark('calm', message('plan.mix.cn-not-known', { materialsList: once }));
    return null;
  }
  const parts = known.map((one) => ({
    ...one,
    carbonFrac: use(book, message('plan.taken.carbon', { materialPart: one.name }), one.carbon),
    nitrogenFrac: use(book, message('plan.taken.nitrogen', { materialPart: one.name }), one.nitrogen),
  }));
  const workOut = (what: Message, share: 'carbonFrac' | 'nitrogenFrac') =>
    book.step(
      what,
      joined(
        parts.map((one) => sum`${amount('massKg', one.dryKg)} × ${amount('share', one[share])}`),
        ' + ',
      ),
      'massKg',
      parts.reduce((sum, one) => sum + one.dryKg * one[share], 0),
    );
  const carbonKg = workOut(message('plan.step.carbon'), 'carbonFrac');
  const nitrogenKg = workOut(message('plan.step.nitrogen'), 'nitrogenFrac');
  const quotient = sum`${amount('massKg', carbonKg)} ÷ ${amount('massKg', nitrogenKg)}`;
  const ratio = book.step(message('plan.step.cn'), quotient, 'number', carbonNitrogenRatio(parts));
  if (ratio < richBelow) {
    book.remark('calm', message('plan.mix.cn-rich', { cnRatio: ratio }));
  }
  return ratio;
}

function use(book: Notebook, what: Message, { value, origin }: Known): number {
  return origin === null ? value : book.take(what, 'share', { value, origin });
}
