/** What the journal keeps of a pile's judgement, so that a start need not judge its batch anew. */
import { z } from 'zod';
import { judgeStateSchema } from '../../core/estimate/state.ts';
import { stateVersion } from '../../core/session/kept-state.ts';
import { alarmMachineSchema } from '../../shared/alarm-record.ts';

const keptSchema = z.object({
  version: z.string(),
  judge: judgeStateSchema,
  waiting: z.array(z.tuple([z.string(), alarmMachineSchema])),
});
export type KeptJudgement = z.infer<typeof keptSchema>;

/** A judge of another version remembers other things: its batch is then read again from the start. */
export function readKept(state: unknown): KeptJudgement | undefined {
  const { data: kept } = keptSchema.safeParse(state);
  return kept?.version === stateVersion() ? kept : undefined;
}

export function keptJudgement({ judge, waiting }: Omit<KeptJudgement, 'version'>): KeptJudgement {
  return { version: stateVersion(), judge, waiting };
}
