import type { Config } from '../../shared/config.ts';
import type { InspectedJournal } from '../../shared/store/journal/inspected-journal.ts';
import { inspectJournal } from '../../shared/store/open/inspect-journal.ts';
import { checkBroker } from './check-broker.ts';
import { checkFolder } from './check-folder.ts';
import { checkMail } from './check-mail.ts';
import { checkPush } from './check-push.ts';
import { checkJournal, checkReadings } from './check-stores.ts';
import type { Finding, Part } from './finding.ts';

/** One part after the other, as one may be why the next is wrong. */
export async function checkAll(
  { config, unknown }: { config: Config; unknown: readonly string[] },
  wanted: readonly Part[],
  found: (finding: Finding) => void,
): Promise<void> {
  // Kept for both that ask it, its failure too.
  let opened: Promise<InspectedJournal | undefined> | undefined;
  const journal = () => {
    opened ??= inspectJournal(config.JOURNAL_URL, config.DATA_DIR);
    return opened;
  };
  const looks: Record<Part, () => Finding | Promise<Finding>> = {
    settings: () => checkSettings(unknown),
    folder: () => checkFolder(config),
    broker: () => checkBroker(config),
    readings: () => checkReadings(config),
    journal: () => checkJournal(config, journal),
    mail: () => checkMail(config),
    push: () => checkPush(journal),
  };
  try {
    for (const part of wanted) found(await looks[part]());
  } finally {
    await opened?.then(
      (look) => look?.close(),
      () => undefined,
    );
  }
}

function checkSettings(unknown: readonly string[]): Finding {
  const part = 'settings';
  if (unknown.length === 0) return { part, state: 'ok', says: 'every BRANHEARTH_ variable that is set is understood' };
  return {
    part,
    state: 'wrong',
    says: `this version knows no ${unknown.join(', ')}`,
    mend: 'look it up in the table of server/README.md, or take it out',
  };
}
