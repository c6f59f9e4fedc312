// Made from ../../en/password.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PasswordParams {
  'password.too-short': { readonly leastCount: number };
  'password.too-long': { readonly mostCount: number };
  'password.few-characters': NoParams;
  'password.repeats': NoParams;
  'password.guessable': NoParams;
}
