/** Plans as the API gives them: sentences in English, in the units asked for, with the message beside each. */
import type { PlannedDate } from '../../../core/plan/dates.ts';
import type { DilutionPlan } from '../../../core/plan/dilution.ts';
import type { MixPlan } from '../../../core/plan/mix.ts';
import type { PlanStep, TakenFact, Written } from '../../../core/plan/notebook.ts';
import type { WaterPlan } from '../../../core/plan/water.ts';
import type {
  DilutionAnswer,
  MixAnswer,
  PlannedDateView,
  PlanUnits,
  WaterAnswer,
  WrittenView,
} from '../../../shared/contracts/plan.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { measure } from '../../../shared/measure.ts';
import { plainReader, sumWords } from '../../../shared/messages/format.ts';
import type { Message } from '../../../shared/messages/message.ts';
import { plainSpaces, renderEnglish } from '../../../shared/messages/render.ts';

/** A plan tells no moments: its dates stand beside its sentences. */
const readerOf = (units: PlanUnits) => plainReader(0, units);

const say = (said: Message, units: PlanUnits): string => plainSpaces(renderEnglish(said, readerOf(units)));

/** @example saying('says', message, units) // => { says: "…", messages: { says: message } } */
function saying<Field extends string>(field: Field, said: Message, units: PlanUnits) {
  return { [field]: say(said, units), messages: { [field]: said } } as Record<Field, string> & {
    messages: Record<Field, Message>;
  };
}

function writtenView({ says, remarks, cautions, working, defaults }: Written, units: PlanUnits): WrittenView {
  return {
    says: say(says, units),
    remarks: remarks.map((remark) => ({ tone: remark.tone, ...saying('says', remark.says, units) })),
    cautions: cautions.map((caution) => say(caution, units)),
    working: working.map((step) => stepView(step, units)),
    defaults: defaults.map((taken) => takenView(taken, units)),
    messages: { says, cautions: [...cautions] },
  };
}

function stepView({ what, sum, kind, value }: PlanStep, units: PlanUnits): WrittenView['working'][number] {
  return {
    ...saying('what', what, units),
    sum: plainSpaces(sumWords(sum, readerOf(units))),
    ...measure(kind, value, units),
    terms: [...sum],
  };
}

function takenView({ what, kind, value, origin }: TakenFact, units: PlanUnits): WrittenView['defaults'][number] {
  return {
    what: say(what, units),
    ...measure(kind, value, units),
    origin: say(origin, units),
    messages: { what, origin },
  };
}

export function dilutionView(plan: DilutionPlan, units: PlanUnits): DilutionAnswer {
  const { meaning, otherwise, ...figures } = plan;
  const written = writtenView(plan, units);
  return {
    ...figures,
    ...written,
    meaning: say(meaning, units),
    otherwise: { ...otherwise, ...saying('meaning', otherwise.meaning, units) },
    messages: { ...written.messages, meaning },
  };
}

export function waterView(plan: WaterPlan, units: PlanUnits): WaterAnswer {
  const { usual, meant, ...figures } = plan;
  return {
    ...figures,
    ...writtenView(plan, units),
    usual: { ...usual, ...saying('origin', usual.origin, units) },
    ...(meant && { meant: { ...meant, ...saying('says', meant.says, units) } }),
  };
}

export function mixView(plan: MixPlan, units: PlanUnits): MixAnswer {
  return {
    ...plan,
    ...writtenView(plan, units),
    materials: plan.materials.map((one) => ({ ...one, ...saying('name', one.name, units) })),
    dates: plan.dates.map((date) => plannedDateView(date, units)),
  };
}

export function plannedDateView({ kind, atMs, untilMs, says, origin }: PlannedDate, units: PlanUnits): PlannedDateView {
  return {
    kind,
    at: toInstant(atMs),
    until: untilMs === null ? null : toInstant(untilMs),
    says: say(says, units),
    origin: say(origin, units),
    messages: { says, origin },
  };
}
