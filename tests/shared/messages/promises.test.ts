/** No text of any language promises what nothing here can know of a pile: that it is safe, healthy, sterile or sanitised. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

/** Words that promise, and those that deny them in the same sentence: before them, or after where the verb comes last. Where no full stop is written, a space ends it. A language without an entry is refused. */
const wordsOf: Readonly<
  Record<
    string,
    { readonly promises: RegExp; readonly denies: RegExp; readonly isDeniedAfter?: true; readonly ends?: RegExp }
  >
> = {
  en: {
    promises: /\b(safe(ly)?|harmless|healthy|steril\w*|saniti[sz]\w*|disinfect\w*)\b/i,
    denies: /\b(not|never|no|nor)\b/i,
  },
  'pt-BR': {
    promises:
      /(?<!\p{L})(segur[oa]s?|seguramente|sadi[oa]s?|sanead[oa]s?|saud[áa]ve(l|is)|inofensiv[oa]s?|in[óo]cu[oa]s?|est[ée]re?is|est[ée]ril\p{L}*|higieniz\p{L}*|desinfe\p{L}*|sanitiz\p{L}*|sem (risco|perigo)s?)(?!\p{L})/iu,
    denies: /(?<!\p{L})(não|nunca|jamais|nem|nada)(?!\p{L})/iu,
  },
  es: {
    promises:
      /(?<!\p{L})(segur[oa]s?|seguramente|san[oa]s?|sanead[oa]s?|saludables?|inofensiv[oa]s?|inocu[oa]s?|est[eé]ril\p{L}*|higieniz\p{L}*|desinfec\p{L}*|sanitiz\p{L}*)(?!\p{L})/iu,
    denies: /(?<!\p{L})(no|nunca|ni|nada)(?!\p{L})/iu,
  },
  ko: {
    promises: /안전|살균|소독|멸균|무균|무해|위생|건강|청결|깨끗/u,
    denies: /않|아니|아닌|아님|없|말하지 못|못 해|못하/u,
    isDeniedAfter: true,
  },
  ja: {
    promises: /安全|安心|殺菌|滅菌|消毒|除菌|無菌|無害|衛生|健康|健全|清潔/u,
    denies: /ません|ない|なく/u,
    isDeniedAfter: true,
  },
  th: {
    promises:
      /ปลอดภัย|ปลอดเชื้อ|ปลอดโรค|ฆ่าเชื้อ|ไร้เชื้อ|สะอาด|สุขอนามัย|สุขลักษณะ|(ไม่มี|ไร้)(พิษ|อันตราย|ความเสี่ยง)|ไม่เป็น(พิษ|อันตราย)|สุขภาพดี|(วาง|ไว้)ใจได้/u,
    denies: /ไม่|อย่า|ห้าม/u,
    ends: /[.;:!?{}\s]/,
  },
};

/** @returns Its sentences that promise. */
function promisesIn(language: string, text: string): string[] {
  const { promises, denies, isDeniedAfter, ends = /[.;:!?{}。；：！？]/ } = wordsOf[language] ?? {};
  if (promises === undefined || denies === undefined) return [`no words are listed for ${language}`];
  return text.split(ends).filter((sentence) => {
    const found = promises.exec(sentence);
    if (found === null) return false;
    return !denies.test(isDeniedAfter ? sentence.slice(found.index) : sentence.slice(0, found.index));
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
  ['pt-BR', 'A pilha é segura.', true],
  ['pt-BR', 'Não revire: já está higienizada.', true],
  ['pt-BR', 'O farelo está sadio e sem risco.', true],
  ['pt-BR', 'O calor desinfeta a pilha.', true],
  ['pt-BR', 'Não está higienizada.', false],
  ['pt-BR', 'Segure o punhado com luvas. Ponha o inóculo.', false],
  ['es', 'La pila es segura.', true],
  ['es', 'No la voltees: ya está higienizada.', true],
  ['es', 'El salvado huele sano.', true],
  ['es', 'El calor la desinfecta.', true],
  ['es', 'No está higienizada.', false],
  ['es', 'Haz una copia de seguridad: ninguna semana sin ella. Añade el inóculo.', false],
  ['ko', '이 더미는 안전해요.', true],
  ['ko', '뒤집지 마세요. 열로 살균되었어요.', true],
  ['ko', '다 되지 않았지만 건강한 냄새가 나요.', true],
  ['ko', '센서만으로는 안전하다고 말하지 않아요.', false],
  ['ko', '완전히 식은 다음에 뒤집으세요.', false],
  ['ja', 'この山は安全です。', true],
  ['ja', '切り返さないでください。熱で殺菌されています。', true],
  ['ja', 'まだでき上がっていませんが、健康なにおいがします。', true],
  ['ja', 'センサーだけで安全だと言うことは決してありません。', false],
  ['ja', '完全に冷めてから切り返してください。', false],
  ['th', 'กองนี้ปลอดภัย', true],
  ['th', 'อย่ากลับกอง กองผ่านการฆ่าเชื้อแล้ว', true],
  ['th', 'รำนี้สะอาดและไม่มีพิษ', true],
  ['th', 'กองนี้ไม่มีอันตราย', true],
  ['th', 'หัววัดอย่างเดียวไม่เคยบอกว่ากองปลอดภัย', false],
  ['th', 'กองไม่ได้ผ่านการฆ่าเชื้อ', false],
  ['xx', 'Anything.', true],
])('in %s, "%s" promises: %s', (language, text, isPromise) => {
  expect(promisesIn(language, text).length > 0).toBe(isPromise);
});
