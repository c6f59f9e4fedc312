/** The journal of one pile, where the code on its label leads. */

import { useRoute } from 'preact-iso';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { EntryList } from './entry-list.tsx';
import { useJournalWords } from './use-journal-words.ts';
import { WritePanel } from './write-panel.tsx';

export function JournalPage() {
  const { params } = useRoute();
  const id = params.id ?? '';
  const pile = useInstallation((installation) => installation.piles?.find((one) => one.id === id));
  const isKnown = useInstallation((installation) => installation.piles !== null);
  const said = useSaid(renderPile, pile?.site);
  const { text } = useJournalWords();
  const name = pile?.name ?? id;
  const heading = usePage(text('page-journal.title.of', { pileName: name }));
  if (isKnown && !pile) {
    return (
      <div class="page narrow">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-journal.no-pile')}
        </h1>
        <p class="lead">
          <a href="/">{text('page-journal.no-pile.back')}</a>
        </p>
      </div>
    );
  }
  return (
    <div class="page journal-page">
      <header class="journal-head">
        <p class="dateline">{text('page-journal.title')}</p>
        <h1 ref={heading} tabIndex={-1}>
          <a href={`/piles/${id}`}>{name}</a>
        </h1>
        {pile && <p class="quiet">{said(pile, 'condition')}</p>}
      </header>
      <div class="journal-two">
        <section aria-labelledby="write">
          <h2 id="write" class="unseen">
            {text('page-journal.write')}
          </h2>
          <May to="keeper">
            <WritePanel pileId={id} />
          </May>
        </section>
        <section aria-labelledby="written">
          <h2 id="written">{text('page-journal.written')}</h2>
          <EntryList key={id} pileId={id} site={pile?.site} />
          <p class="journal-more">
            <a href={`/piles/${id}/label`}>{text('page-journal.label')}</a>
          </p>
        </section>
      </div>
    </div>
  );
}
