// Made from ../../en/page-weather.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageWeatherParams {
  'page-weather.title': NoParams;
  'page-weather.lead': NoParams;
  'page-weather.what': { readonly licence: Tag; readonly sourceText: string; readonly terms: Tag };
  'page-weather.contact': NoParams;
  'page-weather.contact.hint': NoParams;
  'page-weather.latitude': { readonly siteName: string };
  'page-weather.longitude': { readonly siteName: string };
  'page-weather.degrees.hint': NoParams;
  'page-weather.save': NoParams;
  'page-weather.saved': NoParams;
  'page-weather.not-a-number': NoParams;
  'page-weather.heard': { readonly heardAtMs: number; readonly siteName: string };
  'page-weather.waiting': { readonly siteName: string };
  'page-weather.problem': { readonly problemText: string; readonly siteName: string };
  'page-weather.own': { readonly mono: Tag };
}
