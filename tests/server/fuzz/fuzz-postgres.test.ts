import { describe } from 'vitest';
import { hasPostgres, startPostgres } from '../../helpers/postgres.ts';
import { fuzzContract } from './fuzz-contract.ts';
import { postgresPrint } from './journal-print.ts';

describe.skipIf(!hasPostgres)('PostgreSQL', () => {
  fuzzContract('whatever is sent, on a journal in PostgreSQL', {
    callers: ['owner'],
    runs: 4,
    async open() {
      const postgres = await startPostgres({ fsync: 'off' });
      const url = await postgres.journalDatabase();
      return {
        environment: { JOURNAL_URL: url },
        print: () => postgresPrint(url),
        remove: () => postgres.remove(),
      };
    },
  });
});
