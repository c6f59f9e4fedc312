/** What a plan writes down while it is worked out, so that a page can show it. */
import type { PlanTone } from '../../shared/contracts/plan.ts';
import type { MeasureKind } from '../../shared/measure.ts';
import type { Message } from '../../shared/messages/message.ts';
import type { Fact } from '../../shared/profiles/materials.ts';
import type { Measured, Sum } from '../../shared/sum.ts';

/** One line of the working: `what = sum = value`. */
export interface PlanStep extends Measured {
  readonly what: Message;
  readonly sum: Sum;
}

/** A figure nobody gave, and where the one that was taken comes from. */
export interface TakenFact extends Measured {
  readonly what: Message;
  readonly origin: Message;
}

export interface PlanRemark {
  readonly tone: PlanTone;
  readonly says: Message;
}

/** What every plan carries besides its figures. */
export interface Written {
  readonly says: Message;
  readonly remarks: readonly PlanRemark[];
  readonly cautions: readonly Message[];
  readonly working: readonly PlanStep[];
  readonly defaults: readonly TakenFact[];
}

export interface Notebook {
  readonly cautions: Message[];
  /** Writes `what: sum = value`; returns the value. */
  step(what: Message, sum: Sum, kind: MeasureKind, value: number): number;
  /** Writes that a default was taken; returns its value. */
  take(what: Message, kind: MeasureKind, fact: Fact): number;
  remark(tone: PlanTone, says: Message): void;
  /** The written parts of an answer. */
  written(says: Message): Written;
}

export function openNotebook(): Notebook {
  const working: PlanStep[] = [];
  const defaults: TakenFact[] = [];
  const remarks: PlanRemark[] = [];
  const cautions: Message[] = [];
  return {
    cautions,
    step(what, sum, kind, value) {
      working.push({ what, sum, kind, value });
      return value;
    },
    take(what, kind, { value, origin }) {
      if (!defaults.some((taken) => isSame(taken.what, what))) defaults.push({ what, kind, value, origin });
      return value;
    },
    remark: (tone, says) => void remarks.push({ tone, says }),
    written: (says) => ({ says, remarks, cautions, working, defaults }),
  };
}

const isSame = (one: Message, other: Message) => JSON.stringify(one) === JSON.stringify(other);
