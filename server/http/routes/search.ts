/** The search over all that a viewer may read. */
import type { Clock } from '../../../shared/clock.ts';
import { searchAnswerSchema, searchQuestionSchema } from '../../../shared/contracts/search.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ProbeBook } from '../../services/probes/probe-book.ts';
import type { Api } from '../api.ts';
import { fewAtOnce } from '../few-at-once.ts';
import { readerOf } from '../reader-of.ts';

interface SearchRouteParts {
  readonly journal: Journal;
  readonly probes: ProbeBook;
  readonly clock: Clock;
}

/** Each reads the whole journal. */
const mostAtOnce = 4;

export function registerSearch(api: Api, parts: SearchRouteParts): void {
  api.get(
    '/api/search',
    {
      config: { access: 'viewer' },
      ...fewAtOnce(mostAtOnce, message('problem.work.much-of-yours')),
      schema: { querystring: searchQuestionSchema, response: { 200: searchAnswerSchema } },
    },
    async (request) => {
      const { searchFarm } = await import('../../services/search/search-farm.ts');
      return searchFarm(parts, request.query.find, readerOf(request, parts.clock.nowMs()));
    },
  );
}
