/** The words of a plan, in the units that this person measures in. */
import { plainReader, type Reader, sumWords } from '../../../../shared/messages/format.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { materialTexts } from '../../../../shared/messages/made/en/material.ts';
import { originTexts } from '../../../../shared/messages/made/en/origin.ts';
import { planTexts } from '../../../../shared/messages/made/en/plan.ts';
import type { Say } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import type { Sum } from '../../../../shared/sum.ts';
import { useInLanguage } from '../../data/live/use-say.ts';
import { usePlanUnits } from '../../data/plan-units.ts';

const renderPlan = rendererOf({ ...planTexts, ...materialTexts, ...originTexts, ...cautionTexts });

function usePlanReader(): Reader {
  // A plan tells no moments: its dates stand beside its sentences.
  return plainReader(0, usePlanUnits());
}

export function useSayPlan(): Say {
  return useInLanguage(renderPlan, usePlanReader());
}

/** The arithmetic of a step. */
export function useSaySum(): (sum: Sum) => string {
  const reader = usePlanReader();
  return (sum) => sumWords(sum, reader);
}
