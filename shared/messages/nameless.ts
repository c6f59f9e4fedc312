/**
 * Who acts without being anybody by name (`shared/person.ts`) is kept in rows by an English name, as a person is by theirs, and named in the
 * reader's language wherever a name is shown.
 */
import { personTexts } from './made/en/person.ts';
import { keptNames } from './made/kept-names.ts';

/** Arguments that hold the name of whoever did something. */
const ofPerson = /^(by|person|maker|owner)Name$/;

const codes = Object.keys(keptNames) as (keyof typeof keptNames)[];

export const namelessNames = {
  here: keptNames['person.here'],
  'api-token': keptNames['person.api-token'],
  hub: keptNames['person.hub'],
} as const;

/**
 * @param name Of the argument. @param value As it is kept.
 * @param texts Of the language that is read; a page has those of its own.
 */
export function namedIn(name: string, value: string, texts: Readonly<Record<string, string>> = personTexts): string {
  const code = ofPerson.test(name) ? codes.find((one) => keptNames[one] === value) : undefined;
  return (code && (texts[code] ?? personTexts[code])) ?? value;
}
