/** What is wanted now and then: practice, past seasons, records, what came in, settings. */

import { pageMoreTexts } from '../../../../shared/messages/made/en/page-more.ts';
import type { Role } from '../../../../shared/person.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useMay } from '../../data/me.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { morePlaces } from './more-places.ts';
import '../../ui/style/contents.css';

/** Pages that are of use to some only; the server decides again. */
const wanted: Partial<Record<(typeof morePlaces)[number], Role>> = {
  people: 'owner',
  'who-did-what': 'owner',
  keys: 'owner',
  weather: 'owner',
  import: 'keeper',
};

export function MorePage() {
  const mayOwn = useMay('owner');
  const mayKeep = useMay('keeper');
  const isOffered = (place: (typeof morePlaces)[number]) =>
    wanted[place] === undefined || (wanted[place] === 'owner' ? mayOwn : mayKeep);
  const { text } = usePageTexts(pageMoreTexts);
  const heading = usePage(text('page-more.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-more.title')}
      </h1>
      <ul class="contents">
        {morePlaces.filter(isOffered).map((place) => (
          <li key={place}>
            <a href={`/${place}`}>{text(`page-more.${place}`)}</a>
            <p class="quiet">{text(`page-more.${place}.says`)}</p>
          </li>
        ))}
      </ul>
    </div>
  );
}
