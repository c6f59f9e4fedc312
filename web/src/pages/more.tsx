/**
 * web/pages/more.tsx: what is wanted now and then: practice, past seasons, records, what came in, settings.
 */
import { usePage } from '../parts/use-page.ts';
import './more.css';

export const morePlaces = [
  ['/practice', 'Practice', 'A simulated pile to tend in fast time, cut open at the end.'],
  [
    '/seasons',
    'Seasons side by side',
    'Curves and figures of past batches over each other: what differed, and what went alike.',
  ],
  ['/records', 'Records', 'Take out everything as a file, follow the dates in a calendar, print labels.'],
  ['/import', 'Bring in a file', 'Readings or a journal from a table, looked at before anything is kept.'],
  ['/incoming', 'What came in', 'Messages that could not be used, and listening to foreign topics.'],
  ['/keys', 'Keys for probes', 'Who may speak at the broker, and for which probe; made and taken back here.'],
  ['/settings', 'Settings', 'Units, times, paper, your name.'],
] as const;

export function MorePage() {
  const heading = usePage('More');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        More
      </h1>
      <ul class="more-places">
        {morePlaces.map(([href, words, says]) => (
          <li key={href}>
            <a href={href}>{words}</a>
            <p class="quiet">{says}</p>
          </li>
        ))}
      </ul>
    </div>
  );
}
