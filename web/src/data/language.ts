/**
 * In which language this page is read: as the person chose, else as was chosen on this device, else as its browser asks for, of those that
 * there are. English is in the pages; every other is loaded whole once it is known to be read, and the page is worded again.
 */

import type { Reader } from '../../../shared/messages/format.ts';
import { fallback, languageFor } from '../../../shared/messages/language.ts';
import { languages } from '../../../shared/messages/made/languages.ts';
import { loaders } from '../../../shared/messages/made/loaders.ts';
import type { Message, Say } from '../../../shared/messages/message.ts';
import type { WholeLanguage } from '../../../shared/messages/page-text.ts';
import type { Render } from '../../../shared/messages/renderer.ts';
import { me } from './me.ts';
import { followPrefs, languageOfDevice } from './prefs.ts';
import { createStore, useStore } from './store.ts';

export interface OtherLanguage extends Pick<WholeLanguage, 'texts' | 'pages'> {
  readonly language: string;
  readonly render: Render;
}

/** Null while English is read. */
const other = createStore<OtherLanguage | null>(null);

export const useOtherLanguage = (): OtherLanguage | null => useStore(other, (now) => now);

/** The same at this moment, for what is worded once. */
export const otherLanguage = (): OtherLanguage | null => other.get();

/** @param render What English says, which is said where the language that is read lacks it. @param other Null for English. */
export function sayIn(other: OtherLanguage | null, render: Render, reader: Reader): Say {
  if (other === null) return (said) => render(said, reader);
  const { language, texts } = other;
  const isSaid = ({ code }: Message) => code === 'paragraph' || code === 'verbatim' || texts[code] !== undefined;
  return (said) => (isSaid(said) ? other.render(said, { ...reader, language }) : render(said, reader));
}

/** @returns That which is to be read, whether its texts are here or not. */
export function languageWanted(): string {
  const chosen = [me.get()?.person?.language ?? '', languageOfDevice()].filter((one) => one !== '');
  return languageFor([...chosen, ...(globalThis.navigator?.languages ?? [])], languages);
}

async function follow(): Promise<void> {
  const language = languageWanted();
  if (language === (other.get()?.language ?? fallback)) return;
  if (language === fallback) return setOther(null);
  const [whole, { rendererOf }] = await Promise.all([
    loaders[language]?.(),
    import('../../../shared/messages/renderer.ts'),
  ]);
  // Somebody else may have signed in meanwhile.
  if (whole === undefined || language !== languageWanted()) return;
  const { texts, pages } = whole;
  setOther({ language, texts, pages, render: rendererOf(texts) });
}

function setOther(now: OtherLanguage | null): void {
  other.set(now);
  globalThis.document?.documentElement.setAttribute('lang', now?.language ?? fallback);
}

/**
 * From now on the page is read in whatever language is wanted.
 * @returns once the first is here, or cannot be had; a page that is drawn then does not begin in English and change.
 */
export function followLanguage(): Promise<void> {
  const go = () => follow().catch(() => undefined); // out of reach: English goes on
  me.follow(() => void go());
  followPrefs(() => void go());
  return go();
}
