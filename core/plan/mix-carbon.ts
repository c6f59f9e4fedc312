/** The C:N of a mix with its working. */
import { carbonNitrogenRatio } from './carbon-nitrogen.ts';
import type { Notebook } from './notebook.ts';
import type { Known, Portion } from './portion.ts';

/** Below this it is called rich in nitrogen; composts begin at 25 to 40, 7 CFR 205.203(c)(2)(i). */
const richBelow = 20;

export function workOutCarbonNitrogen(book: Notebook, portions: readonly Portion[]): number | null {
  const known = portions.flatMap((one) => {
    const { carbon, nitrogen } = one;
    return carbon && nitrogen ? [{ ...one, carbon, nitrogen }] : [];
  });
  if (known.length < portions.length) {
    const unknown = portions.filter(({ carbon, nitrogen }) => !carbon || !nitrogen).map(({ name }) => name);
    book.remark(
      'calm',
      `Its C:N is not told, as carbon and nitrogen are not known of: ${[...new Set(unknown)].join(', ')}.`,
    );
    return null;
  }
  const parts = known.map((one) => ({
    ...one,
    carbonFrac: use(book, `carbon in the dry matter of ${one.name}`, one.carbon),
    nitrogenFrac: use(book, `nitrogen in the dry matter of ${one.name}`, one.nitrogen),
  }));
  const { say } = book;
  const workOut = (what: string, share: 'carbonFrac' | 'nitrogenFrac') =>
    book.step(
      what,
      parts.map((one) => `${say('massKg', one.dryKg)} × ${say('share', one[share])}`).join(' + '),
      'massKg',
      parts.reduce((sum, one) => sum + one.dryKg * one[share], 0),
    );
  const carbonKg = workOut('carbon', 'carbonFrac');
  const nitrogenKg = workOut('nitrogen', 'nitrogenFrac');
  const sum = `${say('massKg', carbonKg)} ÷ ${say('massKg', nitrogenKg)}`;
  const ratio = book.step('C:N', sum, 'number', carbonNitrogenRatio(parts));
  if (ratio < richBelow) {
    book.remark(
      'calm',
      `C:N is ${book.tell('number', ratio)}: rich in nitrogen, as bran is; composts begin at 25 to 40. Wet and hot it will smell of ammonia.`,
    );
  }
  return ratio;
}

function use(book: Notebook, what: string, { value, origin }: Known): number {
  return origin === null ? value : book.take(what, 'share', { value, origin });
}
