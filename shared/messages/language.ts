/** Which language somebody reads, of those that there are catalogues of. */

/** Everything is written in it first. */
export const fallback = 'en';

/** What stands between two sentences: nothing where a full stop has its own room. */
export const sentenceGap = (language: string): string => (/^(ja|zh)(-|$)/.test(language) ? '' : ' ');

/** English is written as in Britain: "Fri 2 May", "core, top and base". */
export const regionOf = (language: string) => (language === 'en' ? 'en-GB' : language);

/**
 * The first that is there, whole or by fewer subtags: "de-AT" finds "de" (lookup of RFC 4647, section 3.4).
 * @param wanted BCP 47, the dearest first.
 * @param known Those that there are.
 * @returns English where none is.
 */
export function languageFor(wanted: readonly string[], known: readonly string[]): string {
  for (const one of wanted) {
    const subtags = one.toLowerCase().split('-');
    for (let count = subtags.length; count > 0; count -= 1) {
      // A single letter or digit opens an extension and stands for nothing alone.
      if (count > 1 && subtags[count - 1]?.length === 1) continue;
      const range = subtags.slice(0, count).join('-');
      const found = known.find((language) => language.toLowerCase() === range);
      if (found !== undefined) return found;
    }
  }
  return fallback;
}

/**
 * The languages of an `Accept-Language` header, the dearest first (RFC 9110, sections 12.4.2 and 12.5.4); what is not wanted (q=0), is
 * any ("*"), or is no language, is left out.
 * @example languagesAccepted('fr;q=0.3, de-AT, *;q=0.1') // => ["de-AT", "fr"]
 */
export function languagesAccepted(header: string | undefined): string[] {
  const ranges = (header ?? '')
    .slice(0, longestHeader)
    .split(',')
    .flatMap((part) => {
      const [range = '', ...parameters] = part.split(';').map((one) => one.trim());
      const weight = parameters.length === 0 ? 1 : Number(/^q=([\d.]{1,5})$/i.exec(parameters[0] ?? '')?.[1]);
      return languageRange.test(range) && weight > 0 && weight <= 1 ? [{ language: range, weight }] : [];
    });
  return ranges.sort((one, other) => other.weight - one.weight).map(({ language }) => language);
}

/** Browsers send a few dozen signs. */
const longestHeader = 500;
const languageRange = /^[A-Za-z][A-Za-z0-9-]{0,50}$/;
