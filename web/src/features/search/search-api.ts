import { searchAnswerSchema } from '../../../../shared/contracts/search.ts';
import { ask } from '../../data/client.ts';

export const searchFor = (find: string) => ask(searchAnswerSchema, `/api/search?${new URLSearchParams({ find })}`);
