/** What is wanted now and then: practice, past seasons, records, what came in, settings. */

import type { Role } from '../../../../shared/person.ts';
import { useMay } from '../../data/me.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import '../../ui/style/contents.css';

export const morePlaces = [
  ['/practice', 'Practice', 'A simulated pile to tend in fast time, cut open at the end.'],
  [
    '/seasons',
    'Seasons side by side',
    'Curves and figures of past batches over each other: what differed, and what went alike.',
  ],
  ['/records', 'Records', 'Take out everything as a file, follow the dates in a calendar, print labels.'],
  ['/import', 'Import', 'Readings or a journal from a table, looked at before anything is kept.'],
  ['/incoming', 'Messages we could not use', 'Messages that could not be used, and reading topics of other devices.'],
  ['/keys', 'Keys for probes', 'Who may send to the broker, and for which probe; made and revoked here.'],
  ['/people', 'People', 'Who has access, with which role; inviting people.'],
  ['/who-did-what', 'Audit log', 'Every change, by whom, when and from where.'],
  ['/account', 'My account', 'Where you are signed in, your password, tokens for programs.'],
  ['/weather', 'Tomorrow’s air', 'Where the weather is asked for, so that forecasts reckon with it.'],
  [
    '/retention',
    'How long readings are kept',
    'What they take up on disk, and from which age on ten-minute means are enough.',
  ],
  [
    '/notifications',
    'My notifications',
    'Push, e-mail, webhook; of what, when, and who is notified next; a test for each.',
  ],
  ['/settings', 'Settings', 'Units, times, paper, your name.'],
  ['/help', 'Help', 'What each sign and word means, where probes go, what to do at each warning, cautions, faults.'],
] as const;

/** Pages that are of use to some only; the server decides again. */
const wanted: Partial<Record<string, Role>> = {
  '/people': 'owner',
  '/who-did-what': 'owner',
  '/keys': 'owner',
  '/weather': 'owner',
  '/import': 'keeper',
};

export function MorePage() {
  const mayOwn = useMay('owner');
  const mayKeep = useMay('keeper');
  const isOffered = (href: string) => wanted[href] === undefined || (wanted[href] === 'owner' ? mayOwn : mayKeep);
  const heading = usePage('More');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        More
      </h1>
      <ul class="contents">
        {morePlaces
          .filter(([href]) => isOffered(href))
          .map(([href, words, says]) => (
            <li key={href}>
              <a href={href}>{words}</a>
              <p class="quiet">{says}</p>
            </li>
          ))}
      </ul>
    </div>
  );
}
