/**
 * Asks whoever holds the sites of some probes to forget them too. An ask stands until it is done, so that a worker that
 * takes a site over later does it then.
 */
import type { Ask } from '../../shared/pile-ask.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { ProbeName } from '../../shared/store/readings-store.ts';
import { randomId } from '../services/id-from-name.ts';

const probesOfAnAsk = 500;

export async function askToForget(journal: Pick<Journal, 'asks'>, probes: readonly ProbeName[]): Promise<void> {
  for (const site of new Set(probes.map((one) => one.site))) {
    const ofSite = probes.filter((one) => one.site === site);
    for (let first = 0; first < ofSite.length; first += probesOfAnAsk) {
      const some = ofSite.slice(first, first + probesOfAnAsk).map(({ probe }) => ({ site, probe }));
      const ask: Ask = { kind: 'forget', probes: some };
      await journal.asks.add({ id: randomId(), site, pileId: '', ask, askedMs: Date.now() });
    }
  }
}
