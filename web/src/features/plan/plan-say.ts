/** The words of a plan, in the units that this person measures in. */
import type { Units } from '../../../../shared/measure.ts';
import { plainReader, type Reader, sumWords } from '../../../../shared/messages/format.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { materialTexts } from '../../../../shared/messages/made/en/material.ts';
import { originTexts } from '../../../../shared/messages/made/en/origin.ts';
import { planTexts } from '../../../../shared/messages/made/en/plan.ts';
import type { Say } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import type { Sum } from '../../../../shared/sum.ts';
import { language } from '../../data/language.ts';
import { usePlanUnits } from '../../data/plan-units.ts';

const renderPlan = rendererOf({ ...planTexts, ...materialTexts, ...originTexts, ...cautionTexts });

/** @param units Other than those of the person. */
function usePlanReader(units?: Units): Reader {
  const own = usePlanUnits();
  // A plan tells no moments: its dates stand beside its sentences.
  return { ...plainReader(0, units ?? own), language };
}

export function useSayPlan(units?: Units): Say {
  const reader = usePlanReader(units);
  return (said) => renderPlan(said, reader);
}

/** The arithmetic of a step. */
export function useSaySum(units?: Units): (sum: Sum) => string {
  const reader = usePlanReader(units);
  return (sum) => sumWords(sum, reader);
}
