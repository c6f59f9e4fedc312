/** What each part of the record is given. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { ruleTexts } from '../../../../shared/messages/made/en/rule.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export interface SheetPart {
  readonly sheet: BatchRecordSheet;
}

export const renderRules = rendererOf(ruleTexts);
