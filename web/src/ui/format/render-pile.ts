import { alarmTexts } from '../../../../shared/messages/made/en/alarm.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { handTexts } from '../../../../shared/messages/made/en/hand.ts';
import { measureTexts } from '../../../../shared/messages/made/en/measure.ts';
import { phaseTexts } from '../../../../shared/messages/made/en/phase.ts';
import { plainTexts } from '../../../../shared/messages/made/en/plain.ts';
import { sayTexts } from '../../../../shared/messages/made/en/say.ts';
import { warningsTexts } from '../../../../shared/messages/made/en/warnings.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

/** What a pile says and what it is warned of, wherever that is shown. */
export const renderPile = rendererOf({
  ...sayTexts,
  ...alarmTexts,
  ...warningsTexts,
  ...handTexts,
  ...measureTexts,
  ...phaseTexts,
  ...cautionTexts,
  ...plainTexts,
});
