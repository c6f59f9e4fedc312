/** The one place where findings become words. Pages take `renderer.ts`, so that they load no more texts than they show. */
import { readTexts } from './catalogues.ts';
import { fallback } from './language.ts';
import { languages } from './made/languages.ts';
import { plainly, type Render, rendererIn } from './renderer.ts';

export { plainSpaces, type Render } from './renderer.ts';

/** Languages that there are catalogues of, English first. */
export const languagesKnown: readonly string[] = languages;

/** In the language of each reader; in English where there is no catalogue of theirs. */
export const render: Render = rendererIn(languagesKnown, readTexts);

/** English, all of it: for what is read by programs, and for tests. */
export const renderEnglish: Render = (said, reader) => render(said, { ...reader, language: fallback });

/** English in SI units and UTC with plain spaces. */
export const plainEnglish = plainly(renderEnglish);
