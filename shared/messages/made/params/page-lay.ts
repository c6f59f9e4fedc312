// Made from ../../en/page-lay.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageLayParams {
  'page-lay.title': NoParams;
  'page-lay.lead': NoParams;
  'page-lay.place': NoParams;
  'page-lay.place.new': NoParams;
  'page-lay.place.name': NoParams;
  'page-lay.place.name.hint': NoParams;
  'page-lay.place.usual': NoParams;
  'page-lay.name': NoParams;
  'page-lay.lay': NoParams;
  'page-lay.stage': NoParams;
  'page-lay.stage.of': { readonly stage: 'bran' | 'other' | 'soil' };
  'page-lay.not-given': NoParams;
  'page-lay.material': NoParams;
  'page-lay.depth': NoParams;
  'page-lay.depth.unit': NoParams;
  'page-lay.shelter': NoParams;
  'page-lay.more': NoParams;
  'page-lay.laid-at': NoParams;
  'page-lay.laid-at.hint': NoParams;
  'page-lay.moisture': NoParams;
  'page-lay.moisture.unit': NoParams;
  'page-lay.mass': NoParams;
  'page-lay.mass.unit': NoParams;
  'page-lay.dose': NoParams;
  'page-lay.dose.unit': NoParams;
  'page-lay.cover': NoParams;
  'page-lay.thermometer': NoParams;
  'page-lay.thermometer.unset': NoParams;
  'page-lay.thermometer.less': NoParams;
  'page-lay.thermometer.more': NoParams;
}
