/** No text of any language promises what nothing here can know of a pile: that it is safe, healthy, sterile or sanitised. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

/** Words that promise, and those that deny them where they come before in the same sentence. A language without an entry is refused. */
const wordsOf: Readonly<Record<string, { readonly promises: RegExp; readonly denies: RegExp }>> = {
  en: {
    promises: /\b(safe(ly)?|harmless|healthy|steril\w*|saniti[sz]\w*|disinfect\w*)\b/i,
    denies: /\b(not|never|no|nor)\b/i,
  },
  es: {
    promises:
      /(?<!\p{L})(segur[oa]s?|seguramente|san[oa]s?|sanead[oa]s?|saludables?|inofensiv[oa]s?|inocu[oa]s?|est[eé]ril\p{L}*|higieniz\p{L}*|desinfec\p{L}*|sanitiz\p{L}*)(?!\p{L})/iu,
    denies: /(?<!\p{L})(no|nunca|ni|nada)(?!\p{L})/iu,
  },
};

/** @returns Its sentences that promise. */
function promisesIn(language: string, text: string): string[] {
  const { promises, denies } = wordsOf[language] ?? {};
  if (promises === undefined || denies === undefined) return [`no words are listed for ${language}`];
  return text.split(/[.;:!?{}]/).filter((sentence) => {
    const found = promises.exec(sentence);
    return found !== null && !denies.test(sentence.slice(0, found.index));
  });
}

const folder = new URL('../../../shared/messages/', import.meta.url);
const languages = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'made')
  .map(({ name }) => name);

test.each(languages)('no text in %s promises anything of a pile', (language) => {
  const topics = readdirSync(new URL(`${language}/`, folder)).filter((name) =>
    /^(?!standing|compared).*\.json$/.test(name),
  );
  const promising = topics.flatMap((topic) => {
    const texts = JSON.parse(readFileSync(new URL(`${language}/${topic}`, folder), 'utf8')) as Record<string, string>;
    return Object.entries(texts).flatMap(([code, text]) =>
      promisesIn(language, text).map((sentence) => `${code}: ${sentence}`),
    );
  });
  expect(promising).toEqual([]);
});

test.each([
  ['en', 'The pile is safe.', true],
  ['en', 'It has been sanitised by its heat. Do not turn it.', true],
  ['en', 'Do not turn it: it is sterile.', true],
  ['en', 'Sensors alone never say that a pile is safe.', false],
  ['es', 'La pila es segura.', true],
  ['es', 'No la voltees: ya está higienizada.', true],
  ['es', 'El salvado huele sano.', true],
  ['es', 'El calor la desinfecta.', true],
  ['es', 'No está higienizada.', false],
  ['es', 'Haz una copia de seguridad: ninguna semana sin ella. Añade el inóculo.', false],
  ['xx', 'Anything.', true],
])('in %s, "%s" promises: %s', (language, text, isPromise) => {
  expect(promisesIn(language, text).length > 0).toBe(isPromise);
});
