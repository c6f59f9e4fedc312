// Made by `npm run messages`.
import type { AlarmParams } from './params/alarm.ts';
import type { AuditParams } from './params/audit.ts';
import type { BandParams } from './params/band.ts';
import type { CalendarParams } from './params/calendar.ts';
import type { CautionParams } from './params/caution.ts';
import type { ConditionParams } from './params/condition.ts';
import type { DeliveryParams } from './params/delivery.ts';
import type { EntryParams } from './params/entry.ts';
import type { FieldParams } from './params/field.ts';
import type { HandParams } from './params/hand.ts';
import type { HealthParams } from './params/health.ts';
import type { HubParams } from './params/hub.ts';
import type { ImportParams } from './params/import.ts';
import type { LabelParams } from './params/label.ts';
import type { LaidParams } from './params/laid.ts';
import type { LineageParams } from './params/lineage.ts';
import type { LinkParams } from './params/link.ts';
import type { MailParams } from './params/mail.ts';
import type { MaterialParams } from './params/material.ts';
import type { MeaningParams } from './params/meaning.ts';
import type { MeasureParams } from './params/measure.ts';
import type { NoticeParams } from './params/notice.ts';
import type { OriginParams } from './params/origin.ts';
import type { PasswordParams } from './params/password.ts';
import type { PersonParams } from './params/person.ts';
import type { PhaseParams } from './params/phase.ts';
import type { PlainParams } from './params/plain.ts';
import type { PlanParams } from './params/plan.ts';
import type { PracticeParams } from './params/practice.ts';
import type { ProblemParams } from './params/problem.ts';
import type { PushParams } from './params/push.ts';
import type { QuantityParams } from './params/quantity.ts';
import type { ReadinessParams } from './params/readiness.ts';
import type { RecordParams } from './params/record.ts';
import type { RefusalParams } from './params/refusal.ts';
import type { RuleParams } from './params/rule.ts';
import type { SayParams } from './params/say.ts';
import type { SeasonParams } from './params/season.ts';
import type { SqueezeParams } from './params/squeeze.ts';
import type { VerdictParams } from './params/verdict.ts';
import type { WarningsParams } from './params/warnings.ts';
import type { WeatherParams } from './params/weather.ts';
import type { WhyParams } from './params/why.ts';

/** What each message takes, by its code. */
export interface MessageParams
  extends
    AlarmParams,
    AuditParams,
    BandParams,
    CalendarParams,
    CautionParams,
    ConditionParams,
    DeliveryParams,
    EntryParams,
    FieldParams,
    HandParams,
    HealthParams,
    HubParams,
    ImportParams,
    LabelParams,
    LaidParams,
    LineageParams,
    LinkParams,
    MailParams,
    MaterialParams,
    MeaningParams,
    MeasureParams,
    NoticeParams,
    OriginParams,
    PasswordParams,
    PersonParams,
    PhaseParams,
    PlainParams,
    PlanParams,
    PracticeParams,
    ProblemParams,
    PushParams,
    QuantityParams,
    ReadinessParams,
    RecordParams,
    RefusalParams,
    RuleParams,
    SayParams,
    SeasonParams,
    SqueezeParams,
    VerdictParams,
    WarningsParams,
    WeatherParams,
    WhyParams {}
