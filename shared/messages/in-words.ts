/** Answers with their sentences, in whatever language there is; a page takes `worded-answers.ts` with the texts that it has. */
import { render } from './render.ts';
import { wordedAnswers } from './worded-answers.ts';

export const { inWords, worded, inWordsOf } = wordedAnswers(render);
