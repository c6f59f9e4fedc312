// Made from ../../en/condition.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface ConditionParams {
  'condition.self-heating.name': NoParams;
  'condition.self-heating.meaning': NoParams;
  'condition.overheating.name': NoParams;
  'condition.overheating.meaning': NoParams;
  'condition.heat-doubted.name': NoParams;
  'condition.heat-doubted.meaning': NoParams;
  'condition.wrong-growth.name': NoParams;
  'condition.wrong-growth.meaning': NoParams;
  'condition.bad-smell.name': NoParams;
  'condition.bad-smell.meaning': NoParams;
  'condition.hand-wet.name': NoParams;
  'condition.hand-wet.meaning': NoParams;
  'condition.hand-dry.name': NoParams;
  'condition.hand-dry.meaning': NoParams;
  'condition.probe-silent.name': NoParams;
  'condition.probe-silent.meaning': NoParams;
  'condition.probe-stuck.name': NoParams;
  'condition.probe-stuck.meaning': NoParams;
  'condition.probe-out.name': NoParams;
  'condition.probe-out.meaning': NoParams;
  'condition.overheating-soon.name': NoParams;
  'condition.overheating-soon.meaning': NoParams;
  'condition.heat-damage.name': NoParams;
  'condition.heat-damage.meaning': NoParams;
  'condition.drying.name': NoParams;
  'condition.drying.meaning': NoParams;
  'condition.waterlogged.name': NoParams;
  'condition.waterlogged.meaning': NoParams;
  'condition.stalling.name': NoParams;
  'condition.stalling.meaning': NoParams;
  'condition.probes-swapped.name': NoParams;
  'condition.probes-swapped.meaning': NoParams;
  'condition.chilled.name': NoParams;
  'condition.chilled.meaning': NoParams;
  'condition.uneven.name': NoParams;
  'condition.uneven.meaning': NoParams;
}
