/** What people found of smell and look at a pile, the newest first. */
import { entriesAnswerSchema } from '../../../../shared/contracts/journal.ts';
import { ask } from '../../data/client.ts';
import { pilePath } from '../../data/routes.ts';

export const getReadinessWords = (id: string) =>
  ask(entriesAnswerSchema, `${pilePath(id)}/entries?kind=readiness&limit=20`);
