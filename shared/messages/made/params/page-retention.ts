// Made from ../../en/page-retention.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageRetentionParams {
  'page-retention.backups': NoParams;
  'page-retention.backups.elsewhere': NoParams;
  'page-retention.backups.off': NoParams;
  'page-retention.backups.none': NoParams;
  'page-retention.backups.last': { readonly isOld: boolean; readonly madeText: string };
  'page-retention.backups.problem': { readonly problemText: string };
  'page-retention.backups.kept': { readonly folderText: string; readonly keepCount: number; readonly mono: Tag };
  'page-retention.backups.one': { readonly isBeforeUpdate: boolean; readonly madeText: string; readonly takenBytes: number };
  'page-retention.title': NoParams;
  'page-retention.keep': NoParams;
  'page-retention.keep.hint': NoParams;
  'page-retention.now.always': NoParams;
  'page-retention.now.days': { readonly keptDayCount: number };
  'page-retention.stays': NoParams;
  'page-retention.lost': NoParams;
  'page-retention.stays.comparisons': NoParams;
  'page-retention.stays.charts': NoParams;
  'page-retention.stays.records': NoParams;
  'page-retention.lost.readings': NoParams;
  'page-retention.lost.hours': NoParams;
  'page-retention.lost.logs': NoParams;
  'page-retention.lost.for-good': NoParams;
  'page-retention.counting': NoParams;
  'page-retention.running': { readonly dayText: string; readonly doneFrac: number };
  'page-retention.problem': { readonly problemText: string };
  'page-retention.held': { readonly dayText: string; readonly link: Tag; readonly pileName: string };
  'page-retention.last': { readonly beforeText: string; readonly dayText: string; readonly freedBytes: number; readonly isFreed: boolean; readonly readingCount: number };
  'page-retention.stopped': { readonly dayText: string };
  'page-retention.keep.always': NoParams;
  'page-retention.free.never': NoParams;
  'page-retention.keep.days': { readonly keptDayCount: number };
  'page-retention.keep.own': NoParams;
  'page-retention.save.always': NoParams;
  'page-retention.save.days': { readonly keptDayCount: number };
  'page-retention.save.unknown': NoParams;
  'page-retention.keep.aloud': NoParams;
  'page-retention.keep.own.days': NoParams;
  'page-retention.keep.own.least': { readonly leastCount: number };
  'page-retention.taken': { readonly readingCount: number; readonly reduced: 'none' | 'other' | 'some'; readonly reducedBytes: number; readonly takenBytes: number; readonly yearBytes: number };
  'page-retention.taken.none-new': { readonly readingCount: number; readonly takenBytes: number };
  'page-retention.free': { readonly freedBytes: number; readonly readingCount: number };
}
