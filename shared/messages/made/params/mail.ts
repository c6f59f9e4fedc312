// Made from ../../en/mail.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface MailParams {
  'mail.foot': NoParams;
  'mail.seen-it': NoParams;
  'mail.seen-it-by-address': NoParams;
  'mail.look': NoParams;
  'mail.look-by-address': NoParams;
}
