// Made by `npm run messages`.
import type { PlainParams } from './params/plain.ts';

/** What each message takes, by its code. */
export interface MessageParams
  extends
    PlainParams {}
