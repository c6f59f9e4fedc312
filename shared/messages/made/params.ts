// Made by `npm run messages`.
import type { CautionParams } from './params/caution.ts';
import type { PhaseParams } from './params/phase.ts';
import type { PlainParams } from './params/plain.ts';

/** What each message takes, by its code. */
export interface MessageParams
  extends
    CautionParams,
    PhaseParams,
    PlainParams {}
