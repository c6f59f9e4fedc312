// Made from ../../en/page-settings.json by `npm run messages`; change that instead.
import type { NoParams, Tag, Temperature } from '../../param-types.ts';

export interface PageSettingsParams {
  'page-settings.offline.yes': NoParams;
  'page-settings.offline.not-yet': NoParams;
  'page-settings.offline.no': NoParams;
  'page-settings.device': NoParams;
  'page-settings.install': NoParams;
  'page-settings.install.hint': NoParams;
  'page-settings.title': NoParams;
  'page-settings.lead': NoParams;
  'page-settings.temperature': NoParams;
  'page-settings.temperature.hint': { readonly coreC: Temperature };
  'page-settings.time': NoParams;
  'page-settings.time.mine': NoParams;
  'page-settings.time.site': NoParams;
  'page-settings.time.now': { readonly nowText: string };
  'page-settings.time.now-at': { readonly nowText: string; readonly siteName: string };
  'page-settings.time.now-here': { readonly nowText: string };
  'page-settings.theme': NoParams;
  'page-settings.theme.auto': NoParams;
  'page-settings.theme.light': NoParams;
  'page-settings.theme.dark': NoParams;
  'page-settings.name': NoParams;
  'page-settings.name.hint': NoParams;
  'page-settings.forget-token': NoParams;
  'page-settings.part.broker': NoParams;
  'page-settings.part.readings': NoParams;
  'page-settings.part.journal': NoParams;
  'page-settings.part.piles': NoParams;
  'page-settings.part.disk': NoParams;
  'page-settings.part.delivery': NoParams;
  'page-settings.state.ok': NoParams;
  'page-settings.state.degraded': NoParams;
  'page-settings.state.down': NoParams;
  'page-settings.published': NoParams;
  'page-settings.published.lead': NoParams;
  'page-settings.published.states': NoParams;
  'page-settings.published.off': NoParams;
  'page-settings.published.on': NoParams;
  'page-settings.published.states.hint': { readonly eventsText: string; readonly mono: Tag; readonly statesText: string };
  'page-settings.system': NoParams;
  'page-settings.version': NoParams;
  'page-settings.version.is': { readonly isFast: boolean; readonly speedText: string; readonly versionText: string };
  'page-settings.state.off': NoParams;
}
