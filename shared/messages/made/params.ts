// Made by `npm run messages`.
import type { CautionParams } from './params/caution.ts';
import type { ConditionParams } from './params/condition.ts';
import type { PhaseParams } from './params/phase.ts';
import type { PlainParams } from './params/plain.ts';
import type { SayParams } from './params/say.ts';
import type { WarningsParams } from './params/warnings.ts';
import type { WhyParams } from './params/why.ts';

/** What each message takes, by its code. */
export interface MessageParams
  extends
    CautionParams,
    ConditionParams,
    PhaseParams,
    PlainParams,
    SayParams,
    WarningsParams,
    WhyParams {}
