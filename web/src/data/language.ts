/**
 * In which language this page is, and in which it is to be: as the person chose, else as was chosen on this device, else as its browser asks
 * for, of those that there are. A page holds the texts of one language (`web/languages.config.ts`); another is another page.
 */
import { fallback, languageFor } from '../../../shared/messages/language.ts';
import { languages } from '../../../shared/messages/made/languages.ts';
import { me } from './me.ts';
import { languageOfDevice } from './prefs.ts';

/** Its own: `begin.ts` said so to the document before it loaded these parts. */
export const language: string = globalThis.document?.documentElement.lang || fallback;

export function languageWanted(): string {
  const chosen = [me.get()?.person?.language ?? '', languageOfDevice()].filter((one) => one !== '');
  return languageFor([...chosen, ...(globalThis.navigator?.languages ?? [])], languages);
}
