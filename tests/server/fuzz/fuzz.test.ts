import { fuzzContract } from './fuzz-contract.ts';
import { sqlitePrint } from './journal-print.ts';

fuzzContract('whatever is sent, on a journal in a file', {
  callers: ['keeper', 'owner'],
  runs: 6,
  open: async () => ({
    environment: {},
    print: async (dataDir) => sqlitePrint(dataDir),
    remove: async () => undefined,
  }),
});
