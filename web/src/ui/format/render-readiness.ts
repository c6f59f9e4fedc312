/** Whether a batch is ready, what to look for and what to mind, in words. */
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { phaseTexts } from '../../../../shared/messages/made/en/phase.ts';
import { readinessTexts } from '../../../../shared/messages/made/en/readiness.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderReadiness = rendererOf({ ...readinessTexts, ...phaseTexts, ...cautionTexts });
