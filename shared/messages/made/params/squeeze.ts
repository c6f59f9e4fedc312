// Made from ../../en/squeeze.json by `npm run messages`; change that instead.
import type { NoParams, Part } from '../../param-types.ts';

export interface SqueezeParams {
  'squeeze.how': NoParams;
  'squeeze.feel.crumbles': NoParams;
  'squeeze.feel.holds': NoParams;
  'squeeze.feel.drips': NoParams;
  'squeeze.feel.pours': NoParams;
  'squeeze.bran.crumbles': NoParams;
  'squeeze.bran.holds': NoParams;
  'squeeze.bran.drips': NoParams;
  'squeeze.bran.pours': NoParams;
  'squeeze.soil.crumbles': NoParams;
  'squeeze.soil.holds': NoParams;
  'squeeze.soil.drips': NoParams;
  'squeeze.soil.pours': NoParams;
  'squeeze.result': { readonly feelCapitalPart: Part; readonly meaningPart: Part };
  'squeeze.todo.crumbles': NoParams;
  'squeeze.todo.holds': NoParams;
  'squeeze.todo.drips': NoParams;
  'squeeze.todo.pours': NoParams;
}
