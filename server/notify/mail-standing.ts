/**
 * Where a person's mail goes. Nothing but a code is sent to an address that nobody has confirmed; until a new one is, mail
 * goes on to the one before, so that no change of address silences a warning.
 */

import type { MailStanding } from '../../shared/notifications.ts';
import type { MailAddress } from '../../shared/store/notifications-store.ts';

export interface MailGoes {
  readonly standing: MailStanding;
  /** Undefined while there is none. */
  readonly to: string | undefined;
}

/**
 * @param preferred As in the person's preferences; '' for none.
 * @param own The addresses of that person.
 * @param setByServer The address that whoever runs the program gave, where this person stands for the whole of it.
 */
export function mailGoes(preferred: string, own: readonly MailAddress[], setByServer: string | undefined): MailGoes {
  if (preferred === '') return { standing: 'none', to: undefined };
  if (preferred === setByServer) return { standing: 'set-by-server', to: preferred };
  const row = own.find(({ address }) => address === preferred.toLowerCase());
  if (row && takesMail(row)) return { standing: row.standing, to: preferred };
  const [before] = own.filter(takesMail).sort((a, b) => b.sinceMs - a.sinceMs);
  return { standing: 'waiting', to: before?.address };
}

const takesMail = ({ standing }: MailAddress): boolean => standing === 'confirmed' || standing === 'before';
