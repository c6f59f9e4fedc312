// Made from ../../en/meaning.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface MeaningParams {
  'meaning.self-heating': NoParams;
  'meaning.overheating': NoParams;
  'meaning.heat-doubted': NoParams;
  'meaning.wrong-growth': NoParams;
  'meaning.bad-smell': NoParams;
  'meaning.hand-wet': NoParams;
  'meaning.hand-dry': NoParams;
  'meaning.probe-silent': NoParams;
  'meaning.probe-stuck': NoParams;
  'meaning.probe-out': NoParams;
  'meaning.overheating-soon': NoParams;
  'meaning.heat-damage': NoParams;
  'meaning.drying': NoParams;
  'meaning.waterlogged': NoParams;
  'meaning.stalling': NoParams;
  'meaning.probes-swapped': NoParams;
  'meaning.chilled': NoParams;
  'meaning.uneven': NoParams;
}
