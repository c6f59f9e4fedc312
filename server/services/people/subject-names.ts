/** What rows of the audit trail are about, by the names that people gave. */
import type { Reader } from '../../../shared/messages/format.ts';
import { plainSpaces, render } from '../../../shared/messages/render.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { AuditRecord } from '../../../shared/store/people-journal.ts';
import { batchName, readFamily } from '../lineage/family.ts';

/** @returns The name of what a row is about; null where it has none, as a probe. */
export async function subjectNames(journal: Journal, reader: Reader): Promise<(row: AuditRecord) => string | null> {
  const [piles, sites, people, family] = await Promise.all([
    journal.piles.list(),
    journal.sites.list(),
    journal.people.list(),
    readFamily(journal),
  ]);
  const names = new Map([...people, ...sites, ...piles].map(({ id, name }) => [id, name]));
  for (const batch of family.batches.values())
    names.set(batch.id, plainSpaces(render(batchName(family, batch), reader)));
  for (const lot of family.lots.values()) names.set(lot.id, lot.name);
  return ({ subject, before, after }) => {
    if (subject === null) return null;
    const [id = '', ...part] = subject.split('/');
    const name = names.get(id) ?? (part.length === 0 ? (nameIn(before) ?? nameIn(after)) : undefined);
    return name === undefined ? null : [name, ...part].join('/');
  };
}

/** Of what is there no more, the row itself has kept the name. */
function nameIn(kept: unknown): string | undefined {
  const name = typeof kept === 'object' && kept !== null && 'name' in kept ? kept.name : undefined;
  return typeof name === 'string' ? name : undefined;
}
