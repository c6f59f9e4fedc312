// Made from ../../en/weather.json by `npm run messages`; change that instead.
import type { NoParams, Part } from '../../param-types.ts';

export interface WeatherParams {
  'weather.other-form': NoParams;
  'weather.unusable': { readonly pointerText: string; readonly saidPart: Part };
  'weather.own-source': NoParams;
}
