/** What the record knows of a reason. */
import { entryTexts } from '../../../../shared/messages/made/en/entry.ts';
import { squeezeTexts } from '../../../../shared/messages/made/en/squeeze.ts';
import { verdictTexts } from '../../../../shared/messages/made/en/verdict.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderVerdict = rendererOf({ ...verdictTexts, ...entryTexts, ...squeezeTexts });
