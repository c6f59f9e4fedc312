/**
 * Asks whoever holds the sites of some probes to forget them too. A command stands until it is done, so that a worker that
 * takes a site over later does it then.
 */
import type { PileCommand } from '../../shared/pile-command.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { ProbeName } from '../../shared/store/readings-store.ts';
import { randomId } from '../id-from-name.ts';

const probesOfOne = 500;

export async function commandToForget(journal: Pick<Journal, 'commands'>, probes: readonly ProbeName[]): Promise<void> {
  for (const site of new Set(probes.map((one) => one.site))) {
    const ofSite = probes.filter((one) => one.site === site);
    for (let first = 0; first < ofSite.length; first += probesOfOne) {
      const some = ofSite.slice(first, first + probesOfOne).map(({ probe }) => ({ site, probe }));
      const command: PileCommand = { kind: 'forget', probes: some };
      await journal.commands.add({ id: randomId(), site, pileId: '', command, askedMs: Date.now() });
    }
  }
}
