/** What each part of the record is given. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { ruleTexts } from '../../../../shared/messages/made/en/rule.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { clockTime, type Reader } from '../../ui/format/local-time.ts';

export interface SheetPart {
  readonly sheet: BatchRecordSheet;
  readonly reader: Reader;
}

export const renderRules = rendererOf(ruleTexts);

export const instantWords = (instant: string, reader: Reader) =>
  `${fullDay(Date.parse(instant), reader)}, ${clockTime(Date.parse(instant), reader)}`;
