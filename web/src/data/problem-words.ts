/** What may be said of a refusal: loaded with the first one. */
import { fieldTexts } from '../../../shared/messages/made/en/field.ts';
import { importTexts } from '../../../shared/messages/made/en/import.ts';
import { passwordTexts } from '../../../shared/messages/made/en/password.ts';
import { problemTexts } from '../../../shared/messages/made/en/problem.ts';
import { rendererOf } from '../../../shared/messages/renderer.ts';

export const renderProblem = rendererOf({ ...problemTexts, ...fieldTexts, ...importTexts, ...passwordTexts });
