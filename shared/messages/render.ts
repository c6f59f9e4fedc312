/** The one place where findings become words. Pages take `renderer.ts`, so that they load no more texts than they show. */
import { enTexts } from './made/en.ts';
import { plainly, type Render, rendererOf } from './renderer.ts';

export { plainSpaces, type Render } from './renderer.ts';

/** English, all of it: for servers and tests. */
export const renderEnglish: Render = rendererOf(enTexts);

/** English in SI units and UTC with plain spaces. */
export const plainEnglish = plainly(renderEnglish);
