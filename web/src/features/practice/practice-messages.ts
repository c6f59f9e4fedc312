/** What page and worker say to each other; one answer to each question, in order. */
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import type { ActAnswer } from '../../../../simulator/practice/practice.ts';
import type { PracticeAct } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import type { Advance, Frame } from './practice-session.ts';

export type Question =
  | { readonly kind: 'open'; readonly scenarioId: string; readonly seed: number }
  | { readonly kind: 'advance'; readonly hours: number }
  | { readonly kind: 'act'; readonly act: PracticeAct }
  | { readonly kind: 'acknowledge'; readonly alarmId: string };

export interface Answered {
  readonly frame: Frame;
  readonly raised?: Advance['raised'];
  readonly answer?: ActAnswer;
  /** Once the run is over, and never before. */
  readonly debrief?: Debrief;
}

export type Reply = { readonly answered: Answered } | { readonly fault: string };
