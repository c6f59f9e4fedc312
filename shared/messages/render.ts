/** The one place where findings become words. Pages take `renderer.ts`, so that they load no more texts than they show. */
import { catalogues } from './made/catalogues.ts';
import { enTexts } from './made/en.ts';
import { plainly, type Render, rendererIn, rendererOf } from './renderer.ts';

export { plainSpaces, type Render } from './renderer.ts';

/** In the language of each reader; in English where there is no catalogue of theirs. */
export const render: Render = rendererIn(catalogues);

/** Languages that there are catalogues of, English first. */
export const languagesKnown: readonly string[] = Object.keys(catalogues);

/** English, all of it: for what is read by programs, and for tests. */
export const renderEnglish: Render = rendererOf(enTexts);

/** English in SI units and UTC with plain spaces. */
export const plainEnglish = plainly(renderEnglish);
