/**
 * Makes the sentence of a message, in the reader's language and units, from the texts that it is given: a page brings those of what
 * it shows.
 */
import { IntlMessageFormat } from 'intl-messageformat';
import { formatQuantity, plainReader, type Reader } from './format.ts';
import { fallback, languageFor, regionOf, sentenceGap } from './language.ts';
import type { Message } from './message.ts';
import { namedIn } from './nameless.ts';
import { sentenceIn } from './verbatim-text.ts';

/** Texts of one language by code, as a catalogue has them. */
export type Texts = Readonly<Record<string, string>>;

export type Render = (said: Message, reader: Reader) => string;

/**
 * @param texts All that may be asked for.
 * @returns Renders; a code that is not among the texts is shown as itself, so that nothing is hidden and nothing stops.
 */
export function rendererOf(texts: Texts): Render {
  const formats = new Map<string, IntlMessageFormat>();
  const formatOf = (code: string, language: string): IntlMessageFormat | undefined => {
    const text = texts[code];
    if (text === undefined) return undefined;
    const known = formats.get(code);
    if (known !== undefined) return known;
    const made = new IntlMessageFormat(text, language, undefined, { ignoreTag: true });
    formats.set(code, made);
    return made;
  };
  const render: Render = (said, reader) => {
    if (said.code === 'verbatim') return sentenceIn(reader.units.temperature, String(said.params.text));
    if (said.code === 'paragraph')
      return said.params.parts.map((part) => render(part, reader)).join(sentenceGap(reader.language));
    const format = formatOf(said.code, reader.language);
    if (format === undefined) return said.code;
    try {
      return String(format.format(valuesOf(said.params, reader)));
    } catch {
      // A row of another version, whose parameters are not the ones this text asks for.
      return said.code;
    }
  };
  const valuesOf = (params: object, reader: Reader): Record<string, string | number> => {
    const values: Record<string, string | number> = {};
    for (const [name, value] of Object.entries(params)) values[name] = argument(name, value, reader);
    return values;
  };
  const argument = (name: string, value: unknown, reader: Reader): string | number => {
    if (name.endsWith('CapitalPart')) return capital(render(value as Message, reader), reader.language);
    if (name.endsWith('Part')) return render(value as Message, reader);
    if (Array.isArray(value)) {
      const items = value.map((item: string | Message) => (typeof item === 'string' ? item : render(item, reader)));
      return new Intl.ListFormat(regionOf(reader.language), { type: 'conjunction' }).format(items);
    }
    if (value !== null && ['number', 'string', 'object'].includes(typeof value)) {
      const shown = formatQuantity(name, value as number | string, reader);
      if (shown !== undefined) return shown;
    }
    return typeof value === 'number' ? value : namedIn(name, String(value), texts);
  };
  return render;
}

/**
 * @param languages BCP 47, English among them.
 * @param textsOf What a language says; asked once, when somebody first reads it.
 * @returns Renders each message in its reader's language; what that lacks, numbers and dates with it, is said in English.
 */
export function rendererIn(languages: readonly string[], textsOf: (language: string) => Texts): Render {
  const renderers = new Map<string, { readonly texts: Texts; readonly render: Render }>();
  const rendererFor = (language: string) => {
    const known = renderers.get(language);
    if (known !== undefined) return known;
    const texts = textsOf(language);
    const made = { texts, render: rendererOf(texts) };
    renderers.set(language, made);
    return made;
  };
  return (said, reader) => {
    const language = languageFor([reader.language], languages);
    const own = rendererFor(language);
    const isSaid = said.code === 'verbatim' || said.code === 'paragraph' || own.texts[said.code] !== undefined;
    if (isSaid) return own.render(said, { ...reader, language });
    return rendererFor(fallback).render(said, { ...reader, language: fallback });
  };
}

const capital = (text: string, language: string) => text.charAt(0).toLocaleUpperCase(language) + text.slice(1);

/** In SI units and UTC with plain spaces, as programs that ask for nothing else read it. */
export function plainly(render: Render): (said: Message, nowMs?: number) => string {
  return (said, nowMs = 0) => plainSpaces(render(said, plainReader(nowMs)));
}

/** No-break spaces are for pages: a subject line would be encoded for their sake, and a program would not find its number. */
export function plainSpaces(text: string): string {
  return text.replace(/\u00a0/g, ' ');
}
