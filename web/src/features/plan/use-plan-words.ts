/** What the planner's pages say themselves; what is planned has its words in `plan-say.ts`. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pagePlanTexts } from '../../../../shared/messages/made/en/page-plan.ts';
import type { PagePlanParams } from '../../../../shared/messages/made/params/page-plan.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type PlanWords = PageWords<PagePlanParams>;

export const usePlanWords = (): PlanWords => usePageTexts(pagePlanTexts, formatQuantity);
