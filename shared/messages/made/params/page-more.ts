// Made from ../../en/page-more.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageMoreParams {
  'page-more.title': NoParams;
  'page-more.batches': NoParams;
  'page-more.batches.says': NoParams;
  'page-more.probes': NoParams;
  'page-more.probes.says': NoParams;
  'page-more.practice': NoParams;
  'page-more.practice.says': NoParams;
  'page-more.seasons': NoParams;
  'page-more.seasons.says': NoParams;
  'page-more.records': NoParams;
  'page-more.records.says': NoParams;
  'page-more.import': NoParams;
  'page-more.import.says': NoParams;
  'page-more.incoming': NoParams;
  'page-more.incoming.says': NoParams;
  'page-more.keys': NoParams;
  'page-more.keys.says': NoParams;
  'page-more.people': NoParams;
  'page-more.people.says': NoParams;
  'page-more.who-did-what': NoParams;
  'page-more.who-did-what.says': NoParams;
  'page-more.account': NoParams;
  'page-more.account.says': NoParams;
  'page-more.weather': NoParams;
  'page-more.weather.says': NoParams;
  'page-more.retention': NoParams;
  'page-more.retention.says': NoParams;
  'page-more.notifications': NoParams;
  'page-more.notifications.says': NoParams;
  'page-more.settings': NoParams;
  'page-more.settings.says': NoParams;
  'page-more.help': NoParams;
  'page-more.help.says': NoParams;
}
