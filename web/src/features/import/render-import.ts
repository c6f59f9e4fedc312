import { fieldTexts } from '../../../../shared/messages/made/en/field.ts';
import { importTexts } from '../../../../shared/messages/made/en/import.ts';
import { problemTexts } from '../../../../shared/messages/made/en/problem.ts';
import { quantityTexts } from '../../../../shared/messages/made/en/quantity.ts';
import { refusalTexts } from '../../../../shared/messages/made/en/refusal.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

/** What a preview says of a file, its columns and rows. */
export const renderImport = rendererOf({
  ...importTexts,
  ...quantityTexts,
  ...fieldTexts,
  ...problemTexts,
  ...refusalTexts,
});
