/** Says of a translation that no grower has read yet that it is one; in that language, as its readers are who should know. */

import { pageLanguageTexts } from '../../../../shared/messages/made/en/page-language.ts';
import { machineMade } from '../../../../shared/messages/made/languages.ts';
import { language } from '../../data/language.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';

export function MachineMade() {
  const { text } = usePageTexts(pageLanguageTexts);
  if (!machineMade.includes(language)) return null;
  return <p class="hint">{text('page-language.machine-made')}</p>;
}
