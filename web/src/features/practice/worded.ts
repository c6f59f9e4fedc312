/** Sentences of a practice pile in English, as the answers of a server hold them; a page says the messages beside them. */
import { enTexts } from '../../../../shared/messages/made/en.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { wordedAnswers } from '../../../../shared/messages/worded-answers.ts';

export const { worded } = wordedAnswers(rendererOf(enTexts));
