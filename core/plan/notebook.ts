/** What a plan writes down while it is worked out, so that a page can show it. */
import type { DefaultTaken, PlanUnits, Remark, WorkingStep } from '../../shared/contracts/plan.ts';
import { type MeasureKind, measure, measureText } from '../../shared/measure.ts';

/** A default with where it comes from: a published source, "common practice, no source", or "from memory". */
export interface Fact {
  readonly value: number;
  readonly origin: string;
}

export interface Notebook {
  readonly working: WorkingStep[];
  readonly defaults: DefaultTaken[];
  readonly remarks: Remark[];
  readonly cautions: string[];
  /** An amount as it stands in the working: four figures. */
  say(kind: MeasureKind, value: number): string;
  /** An amount as it stands in a sentence: three figures. */
  tell(kind: MeasureKind, value: number): string;
  /** Writes `what: sum = value`; returns the value. */
  step(what: string, sum: string, kind: MeasureKind, value: number): number;
  /** Writes that a default was taken; returns its value. */
  take(what: string, kind: MeasureKind, fact: Fact): number;
  remark(tone: Remark['tone'], says: string): void;
}

export function openNotebook(units: PlanUnits): Notebook {
  const working: WorkingStep[] = [];
  const defaults: DefaultTaken[] = [];
  const remarks: Remark[] = [];
  return {
    working,
    defaults,
    remarks,
    cautions: [],
    say: (kind, value) => measureText(kind, value, units),
    tell: (kind, value) => measureText(kind, value, units, 3),
    step(what, sum, kind, value) {
      working.push({ what, sum, ...measure(kind, value, units) });
      return value;
    },
    take(what, kind, { value, origin }) {
      if (!defaults.some((taken) => taken.what === what)) {
        defaults.push({ what, ...measure(kind, value, units), origin });
      }
      return value;
    },
    remark: (tone, says) => void remarks.push({ tone, says }),
  };
}

/** The written parts of an answer. */
export function told({ working, defaults, remarks, cautions }: Notebook, says: string) {
  return { says, remarks, cautions, working, defaults };
}
