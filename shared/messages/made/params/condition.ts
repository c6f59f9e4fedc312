// Made from ../../en/condition.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface ConditionParams {
  'condition.self-heating.name': NoParams;
  'condition.overheating.name': NoParams;
  'condition.heat-doubted.name': NoParams;
  'condition.wrong-growth.name': NoParams;
  'condition.bad-smell.name': NoParams;
  'condition.hand-wet.name': NoParams;
  'condition.hand-dry.name': NoParams;
  'condition.probe-silent.name': NoParams;
  'condition.probe-stuck.name': NoParams;
  'condition.probe-out.name': NoParams;
  'condition.overheating-soon.name': NoParams;
  'condition.heat-damage.name': NoParams;
  'condition.drying.name': NoParams;
  'condition.waterlogged.name': NoParams;
  'condition.stalling.name': NoParams;
  'condition.probes-swapped.name': NoParams;
  'condition.chilled.name': NoParams;
  'condition.uneven.name': NoParams;
}
