/**
 * The page in the language that is wanted: as soon as that is another than its own, and can be had, it is loaded anew in it. Until it is known
 * who sits here the page stays in the one that it was read in last.
 */
import { language, languageWanted } from '../language.ts';
import { me } from '../me.ts';
import { followPrefs } from '../prefs.ts';
import { languageKey, remember } from '../remembered.ts';
import { showIn } from './installed.ts';

let isGoing = false;

async function follow(): Promise<void> {
  if (isGoing || me.get() === null || languageWanted() === language) return;
  isGoing = true;
  // Out of reach: it goes on as it is, and tries again when the server next says who sits here.
  await showIn(languageWanted()).catch(() => undefined);
  isGoing = false;
}

/** Called once. */
export function followLanguage(): void {
  // Pages that are not built are in English alone.
  if (!import.meta.env.PROD) return;
  remember(languageKey, language);
  me.follow(() => void follow());
  followPrefs(() => void follow());
}
