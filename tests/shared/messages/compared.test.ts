/** What can hurt was translated back by somebody who saw the translation alone, and compared; `compared.json` of a language holds that. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const folder = new URL('../../../shared/messages/', import.meta.url);
const read = (path: string): unknown => JSON.parse(readFileSync(new URL(path, folder), 'utf8'));

/** Cautions, orders and warnings. */
const canHurt =
  /^(caution|condition|meaning|rule|warnings|alarm|readiness|squeeze)\.|^plan\.(water|air|ground|date)\.|^notice\.(fire-service|still-watch|site\.todo|system\.(broker|piles)\.todo)$|^say\.(next|eased)\./;

/** English, what came back, and the translation by its language. */
type Compared = Readonly<Record<string, string>> & { readonly en: string; readonly back: string };

function textsOf(language: string): ReadonlyMap<string, string> {
  const topics = readdirSync(new URL(`${language}/`, folder)).filter((name) =>
    /^(?!standing|compared).*\.json$/.test(name),
  );
  return new Map(topics.flatMap((topic) => Object.entries(read(`${language}/${topic}`) as Record<string, string>)));
}

const english = textsOf('en');
const languages = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && !['made', 'en'].includes(entry.name))
  .map(({ name }) => name);

describe.each(languages)('%s', (language) => {
  const path = `${language}/compared.json`;
  const compared = existsSync(new URL(path, folder)) ? (read(path) as Record<string, Compared>) : {};
  const texts = textsOf(language);
  const isOffered = (read(`${language}/standing.json`) as { readonly standing: string }).standing !== 'draft';

  test('what was translated back is what stands there now', () => {
    const others = Object.entries(compared).filter(([code, { [language]: own }]) => own !== texts.get(code));
    expect(others.map(([code]) => code)).toEqual([]);
  });

  test('while it is offered, all that can hurt was compared with the English of now', () => {
    const stale = [...english].filter(([code, text]) => canHurt.test(code) && compared[code]?.en !== text);
    expect(isOffered ? stale.map(([code]) => code) : []).toEqual([]);
  });

  test('nothing was translated back as itself or as nothing', () => {
    const words = (text: string) => text.replaceAll(/\{[^{}]*\}/g, '').match(/\p{L}{3,}/gu) ?? [];
    const empty = Object.entries(compared).filter(
      ([, { back, [language]: own = '' }]) => words(own).length > 0 && (back === own || back === ''),
    );
    expect(empty.map(([code]) => code).filter((code) => !code.endsWith('.source'))).toEqual([]);
  });
});
