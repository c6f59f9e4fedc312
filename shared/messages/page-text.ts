/** Texts of pages as `compiled.mjs` leaves them, so that a page needs no parser. */

type Piece =
  | string
  | readonly [argument: string]
  | readonly [argument: string, choices: Readonly<Record<string, PageText>>, isByNumber: 0 | 1]
  | readonly ['<', tag: string, inner: PageText];

export type PageText = string | readonly Piece[];

/** Of one topic, by code. @typeParam Params What each takes. */
export type PageTexts<Params> = { readonly [Code in keyof Params]: PageText };

/** What the catalogues of a language say, by topic and code, before it is made short. */
export type TextsOf = (topic: string) => Readonly<Record<string, string>>;

/** How arguments and tags become what a page shows: text, or elements. */
export interface PageWriter<Shown> {
  /** BCP 47. */
  readonly language: string;
  readonly value: (name: string, value: unknown) => string;
  readonly tag: (wrap: unknown, inner: readonly (Shown | string)[]) => Shown;
}

interface Numbers {
  readonly format: Intl.NumberFormat;
  readonly plural: Intl.PluralRules;
}
const numbersOf = new Map<string, Numbers>();

/** Making them is slow next to using them, and a page of hundreds of lines uses them thousands of times. */
function numbersIn(language: string): Numbers {
  const known = numbersOf.get(language);
  if (known) return known;
  const made = { format: new Intl.NumberFormat(language), plural: new Intl.PluralRules(language) };
  numbersOf.set(language, made);
  return made;
}

/** @example writeCount(1234, 'en') // => "1,234" */
export const writeCount = (count: number, language: string): string => numbersIn(language).format.format(count);

/** @returns The pieces in their order, to be shown one after the other. */
export function writePage<Shown>(
  text: PageText,
  params: Readonly<Record<string, unknown>>,
  writer: PageWriter<Shown>,
  count = 0,
): (Shown | string)[] {
  if (typeof text === 'string') return [text];
  return text.flatMap((piece): (Shown | string)[] => {
    if (typeof piece === 'string') return [piece];
    const [name, choices, isByNumber] = piece;
    if (name === '#') return [writeCount(count, writer.language)];
    if (choices === undefined) return [writer.value(name, params[name])];
    if (typeof choices === 'string') {
      const inner = writePage(isByNumber as PageText, params, writer, count);
      return [writer.tag(params[choices], inner)];
    }
    const chosen = params[name];
    if (isByNumber === 0) return writePage(choices[String(chosen)] ?? choices.other ?? '', params, writer, count);
    const number = Number(chosen);
    const form = choices[`=${number}`] ?? choices[numbersIn(writer.language).plural.select(number)];
    return writePage(form ?? choices.other ?? '', params, writer, number);
  });
}
