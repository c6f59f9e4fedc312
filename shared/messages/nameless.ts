/**
 * Who acts without being anybody by name (`shared/person.ts`) is kept in rows by an English name, as a person is by theirs, and named in the
 * reader's language wherever a name is shown.
 */
import { personTexts } from './made/en/person.ts';

/** Arguments that hold the name of whoever did something. */
const ofPerson = /^(by|person|maker|owner)Name$/;

const codes = Object.keys(personTexts) as (keyof typeof personTexts)[];

export const namelessNames = {
  here: personTexts['person.here'],
  'api-token': personTexts['person.api-token'],
  hub: personTexts['person.hub'],
} as const;

/**
 * @param name Of the argument. @param value As it is kept.
 * @param texts Of the language that is read.
 */
export function namedIn(texts: Readonly<Record<string, string>>, name: string, value: string): string {
  const code = ofPerson.test(name) ? codes.find((one) => personTexts[one] === value) : undefined;
  return (code && texts[code]) ?? value;
}
